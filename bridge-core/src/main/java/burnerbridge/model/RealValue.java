package burnerbridge.model;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A finite real number and how many of its decimals are worth showing.
 *
 * @param exact the number, to the last decimal that is shown: a double where that tells them all, as it
 *     does up to 15 digits
 * @param decimals digits after the point, 0 to 60
 */
public record RealValue(BigDecimal exact, int decimals) implements Value {
    /** Enough for the smallest 32-bit float written out. */
    public static final int MOST_DECIMALS = 60;

    private static final int DIGITS_OF_A_DOUBLE = 15;

    public RealValue {
        if (decimals < 0 || decimals > MOST_DECIMALS) {
            throw new IllegalArgumentException("decimals must be 0 to " + MOST_DECIMALS + " (was " + decimals + ")");
        }
        exact = isPlain(exact) ? withoutZeros(exact) : nearest(exact, decimals);
    }

    /**
     * Whether it has so few digits that the nearest double tells them all, and is of a size that {@link
     * Double#toString} writes without an exponent. Most are; to write a double out only to see that costs more than
     * all the rest of decoding.
     */
    private static boolean isPlain(BigDecimal number) {
        int before = number.precision() - number.scale();
        return number.precision() <= DIGITS_OF_A_DOUBLE && (number.signum() == 0 || (before > -2 && before <= 7));
    }

    /** As {@link BigDecimal#valueOf(double)} would have it, with one decimal at least. */
    private static BigDecimal withoutZeros(BigDecimal number) {
        BigDecimal bare = number.stripTrailingZeros();
        return bare.scale() < 1 ? bare.setScale(1) : bare;
    }

    private static BigDecimal nearest(BigDecimal exact, int decimals) {
        BigDecimal near = BigDecimal.valueOf(finite(exact.doubleValue()));
        boolean enough = rounded(near, decimals).compareTo(rounded(exact, decimals)) == 0;
        return enough ? near : exact.stripTrailingZeros();
    }

    /** @param number never NaN or infinite: those are a quality, not a value */
    public RealValue(double number, int decimals) {
        this(BigDecimal.valueOf(finite(number)), decimals);
    }

    private static double finite(double number) {
        if (!Double.isFinite(number)) {
            throw new IllegalArgumentException("a real value is finite (was " + number + ")");
        }
        return number;
    }

    private static BigDecimal rounded(BigDecimal number, int decimals) {
        return number.setScale(decimals, RoundingMode.HALF_EVEN);
    }

    /** The nearest double. */
    public double number() {
        return exact.doubleValue();
    }

    /** The number with its decimals, never in exponent form: {@code 42.50}. */
    @Override
    public String text() {
        return rounded(exact, decimals).toPlainString();
    }
}
