package burnerbridge.site;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * From raw to value: raw × numerator / denominator + offset, in decimal arithmetic, which is exact unless
 * the division does not end.
 *
 * @param decimals how many decimals of the value are worth showing; a whole raw value has no more
 */
public record Scaling(BigDecimal numerator, BigDecimal denominator, BigDecimal offset, int decimals) {
    public static final Scaling NONE = new Scaling(BigDecimal.ONE, BigDecimal.ZERO);

    private static final MathContext DIGITS = new MathContext(24, RoundingMode.HALF_EVEN);
    /** More digits than the steps of a 16-bit register can tell apart are noise. */
    private static final int MOST_DECIMALS_OF_TWO_POINTS = 6;

    public Scaling {
        if (numerator.signum() == 0 || denominator.signum() == 0) {
            throw new IllegalArgumentException("scale must not be 0");
        }
    }

    /** value = raw × scale + offset. */
    public Scaling(BigDecimal scale, BigDecimal offset) {
        this(scale, BigDecimal.ONE, offset, Math.max(0, Math.max(scale.scale(), offset.scale())));
    }

    /** The line through two points: {@code rawLow} is {@code low} and {@code rawHigh} is {@code high}. */
    public static Scaling through(BigDecimal rawLow, BigDecimal rawHigh, BigDecimal low, BigDecimal high) {
        BigDecimal rise = high.subtract(low);
        BigDecimal run = rawHigh.subtract(rawLow);
        BigDecimal offset = low.subtract(rawLow.multiply(rise).divide(run, DIGITS));
        BigDecimal step = rise.divide(run, DIGITS).abs();
        int decimals = (int) Math.ceil(-Math.log10(step.doubleValue()));
        return new Scaling(rise, run, offset, Math.max(0, Math.min(MOST_DECIMALS_OF_TWO_POINTS, decimals)));
    }

    public boolean isNone() {
        return equals(NONE);
    }

    /** The same for a raw value that has so many decimals. */
    public Scaling withDecimals(int count) {
        return new Scaling(numerator.scaleByPowerOfTen(-count), denominator, offset, decimals + count);
    }

    /** The value of one raw step, without its sign. */
    public BigDecimal step() {
        return numerator.divide(denominator, DIGITS).abs();
    }

    public BigDecimal apply(BigDecimal raw) {
        BigDecimal product = raw.multiply(numerator);
        BigDecimal scaled = denominator.equals(BigDecimal.ONE) ? product : product.divide(denominator, DIGITS);
        return scaled.add(offset);
    }
}
