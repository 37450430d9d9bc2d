package burnerbridge.model;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A finite real number and how many of its decimals are worth showing.
 *
 * @param number never NaN or infinite: those are a quality, not a value
 * @param decimals digits after the point, 0 to 60
 */
public record RealValue(double number, int decimals) implements Value {
    /** Enough for the smallest 32-bit float written out. */
    public static final int MOST_DECIMALS = 60;

    public RealValue {
        if (!Double.isFinite(number)) {
            throw new IllegalArgumentException("a real value is finite (was " + number + ")");
        }
        if (decimals < 0 || decimals > MOST_DECIMALS) {
            throw new IllegalArgumentException("decimals must be 0 to " + MOST_DECIMALS + " (was " + decimals + ")");
        }
    }

    /** The number with its decimals, never in exponent form: {@code 42.50}. */
    @Override
    public String text() {
        return BigDecimal.valueOf(number)
                .setScale(decimals, RoundingMode.HALF_EVEN)
                .toPlainString();
    }
}
