package burnerbridge.site;

import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.Set;

/**
 * What of a point's replies is no value.
 *
 * @param noValue raw patterns that say that no sensor is there, without sign or with
 * @param valid the range as shown, in the point's unit, both ends included
 */
public record Limits(Set<BigDecimal> noValue, Optional<Range> valid) {
    public static final Limits NONE = new Limits(Set.of(), Optional.empty());

    /** Both ends included. */
    public record Range(BigDecimal low, BigDecimal high) {
        public Range {
            if (low.compareTo(high) > 0) {
                throw new IllegalArgumentException("a range runs from low to high (was " + low + ".." + high + ")");
            }
        }
    }

    public Limits {
        noValue = Set.copyOf(noValue);
    }

    /** The same with the range shown in another unit. */
    public Limits shownBy(Linear conversion) {
        return new Limits(
                noValue, valid.map(range -> new Range(conversion.apply(range.low()), conversion.apply(range.high()))));
    }

    /** Whether a raw value is one of the patterns. */
    public boolean isNoValue(BigDecimal raw) {
        return !noValue.isEmpty() && noValue.stream().anyMatch(pattern -> pattern.compareTo(raw) == 0);
    }
}
