package burnerbridge.config.register;

import burnerbridge.site.PointFormat;

/** Which whole numbers the registers of a format can hold. */
public final class HeldNumbers {
    private final PointFormat format;

    public HeldNumbers(PointFormat format) {
        this.format = format;
    }

    public static boolean isBit(PointFormat format) {
        return format instanceof PointFormat.Bit || format instanceof PointFormat.RegisterBit;
    }

    /** @param number of a format of whole numbers */
    public boolean contains(long number) {
        return format.magnitudeBits() >= 63 || (number >= least() && number <= most());
    }

    public long most() {
        return (1L << format.magnitudeBits()) - 1;
    }

    public long least() {
        return canBeNegative() ? -most() - 1 : 0;
    }

    private boolean canBeNegative() {
        return format instanceof PointFormat.SignMagnitude16
                || (format instanceof PointFormat.Whole whole && whole.signed())
                || (format instanceof PointFormat.HalfRegister half && half.signed());
    }
}
