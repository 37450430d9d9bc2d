package burnerbridge.decode;

import java.util.OptionalLong;

/** Binary coded decimal: four bits a digit, the most significant digit first. */
final class BcdDigits {
    private BcdDigits() {}

    /** The number that so many digits make; empty where one of them is past 9. */
    static OptionalLong read(long bits, int digits) {
        long number = 0;
        for (int place = digits - 1; place >= 0; place--) {
            long digit = bits >> 4 * place & 0xF;
            if (digit > 9) {
                return OptionalLong.empty();
            }
            number = 10 * number + digit;
        }
        return OptionalLong.of(number);
    }
}
