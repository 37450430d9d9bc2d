package burnerbridge.site;

import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;

/**
 * From a raw number to the value that is shown: scale and offset or the line through two points, and the
 * conversion of units, in one step.
 *
 * @param decimals how many decimals of the value are worth showing; a whole raw value has no more
 */
public record Scaling(Linear line, int decimals) {
    public static final Scaling NONE = new Scaling(BigDecimal.ONE, BigDecimal.ZERO);

    /** More digits than the steps of a 16-bit register can tell apart are noise. */
    private static final int MOST_DECIMALS_OF_TWO_POINTS = 6;
    /** As many as keep the steps of joules apart when they are shown as megawatt hours. */
    private static final int MOST_DECIMALS_OF_A_CONVERSION = 12;

    /** value = raw × scale + offset. */
    public Scaling(BigDecimal scale, BigDecimal offset) {
        this(new Linear(scale, offset, BigDecimal.ONE), Math.max(0, Math.max(scale.scale(), offset.scale())));
    }

    /** The line through two points: {@code rawLow} is {@code low} and {@code rawHigh} is {@code high}. */
    public static Scaling through(BigDecimal rawLow, BigDecimal rawHigh, BigDecimal low, BigDecimal high) {
        BigDecimal rise = high.subtract(low);
        BigDecimal run = rawHigh.subtract(rawLow);
        Linear line = new Linear(rise, low.multiply(run).subtract(rawLow.multiply(rise)), run);
        BigDecimal step = line.applyToDifference(BigDecimal.ONE).abs();
        return new Scaling(line, decimalsFor(step, MOST_DECIMALS_OF_TWO_POINTS));
    }

    /** As many decimals as make the last one no larger than a size. */
    private static int decimalsFor(BigDecimal size, int most) {
        int decimals = (int) Math.ceil(-Math.log10(size.doubleValue()));
        return Math.max(0, Math.min(most, decimals));
    }

    public boolean isNone() {
        return equals(NONE);
    }

    /** The same for a raw value that has so many decimals. */
    public Scaling withDecimals(int count) {
        Linear scaled = new Linear(line.numerator().scaleByPowerOfTen(-count), line.addend(), line.denominator());
        return new Scaling(scaled, decimals + count);
    }

    /**
     * The same shown in another unit. Its decimals leave half a step of the raw value to spare, so that
     * a value read off can be converted back, but are no more than the exact value has.
     */
    public Scaling shownBy(Linear conversion) {
        if (conversion.isIdentity()) {
            return this;
        }
        Linear joined = line.then(conversion);
        BigDecimal step = joined.applyToDifference(BigDecimal.ONE).abs();
        int apart = decimalsFor(step.divide(BigDecimal.valueOf(2)), MOST_DECIMALS_OF_A_CONVERSION);
        return new Scaling(joined, joined.isDecimal() ? Math.min(apart, decimalsOf(joined)) : apart);
    }

    private static int decimalsOf(Linear line) {
        return Math.max(0, Math.max(line.numerator().scale(), line.addend().scale()));
    }

    /** The value of one raw step, without its sign. */
    public BigDecimal step() {
        return line.applyToDifference(BigDecimal.ONE).abs();
    }

    public BigDecimal apply(BigDecimal raw) {
        return line.apply(raw);
    }
}
