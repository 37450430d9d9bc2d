package burnerbridge.config.register;

import burnerbridge.site.PointFormat;
import java.math.BigInteger;

/** Which whole numbers the registers of a format can hold. */
public final class HeldNumbers {
    private static final int DIGITS_OF_A_REGISTER = 4;

    private final PointFormat format;

    public HeldNumbers(PointFormat format) {
        this.format = format;
    }

    /** @param number of a format of whole numbers */
    public boolean contains(long number) {
        return contains(BigInteger.valueOf(number));
    }

    /** Likewise. */
    public boolean contains(BigInteger number) {
        return number.compareTo(least()) >= 0 && number.compareTo(most()) <= 0;
    }

    public BigInteger most() {
        boolean digits = format instanceof PointFormat.Bcd || format instanceof PointFormat.DecimalWords;
        return (digits
                        ? BigInteger.TEN.pow(DIGITS_OF_A_REGISTER * format.width())
                        : BigInteger.ONE.shiftLeft(format.magnitudeBits()))
                .subtract(BigInteger.ONE);
    }

    public BigInteger least() {
        if (format instanceof PointFormat.SignMagnitude16) {
            return most().negate();
        }
        return isOfTwosComplement() ? most().negate().subtract(BigInteger.ONE) : BigInteger.ZERO;
    }

    private boolean isOfTwosComplement() {
        return (format instanceof PointFormat.Whole whole && whole.signed())
                || (format instanceof PointFormat.HalfRegister half && half.signed());
    }
}
