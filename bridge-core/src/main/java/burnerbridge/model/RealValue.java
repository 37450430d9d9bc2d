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

    public RealValue {
        if (decimals < 0 || decimals > MOST_DECIMALS) {
            throw new IllegalArgumentException("decimals must be 0 to " + MOST_DECIMALS + " (was " + decimals + ")");
        }
        BigDecimal near = BigDecimal.valueOf(finite(exact.doubleValue()));
        boolean enough = rounded(near, decimals).compareTo(rounded(exact, decimals)) == 0;
        exact = enough ? near : exact.stripTrailingZeros();
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
