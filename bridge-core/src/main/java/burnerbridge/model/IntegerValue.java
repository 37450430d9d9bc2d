package burnerbridge.model;

import java.math.BigInteger;

/**
 * A whole number of up to 64 bits, signed or not, exact to the last digit: it never passes through a
 * double.
 */
public record IntegerValue(BigInteger number) implements Value {

    public IntegerValue {
        if (number.bitLength() > 64) {
            throw new IllegalArgumentException("an integer value has at most 64 bits (was " + number + ")");
        }
    }

    public static IntegerValue of(long number) {
        return new IntegerValue(BigInteger.valueOf(number));
    }

    @Override
    public String text() {
        return number.toString();
    }
}
