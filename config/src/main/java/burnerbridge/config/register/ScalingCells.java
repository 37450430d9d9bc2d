package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.Scaling;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/** Reads {@code scale} and {@code offset}, or the four columns of a line through two points. */
public final class ScalingCells {
    private static final BigDecimal LARGEST = new BigDecimal("1e12");
    private static final BigDecimal SMALLEST = new BigDecimal("1e-12");
    private static final List<String> TWO_POINTS = List.of("raw-low", "raw-high", "low", "high");

    private ScalingCells() {}

    public static Scaling read(PointRow row) {
        List<String> filled = TWO_POINTS.stream().filter(row::has).toList();
        if (filled.isEmpty()) {
            return scaleAndOffset(row);
        }
        if (row.has("scale") || row.has("offset")) {
            row.error(filled.get(0), "stands beside scale or offset; a row has one kind of scaling");
            return Scaling.NONE;
        }
        if (filled.size() < TWO_POINTS.size()) {
            row.error(filled.get(0), "needs all of " + String.join(", ", TWO_POINTS));
            return Scaling.NONE;
        }
        return twoPoints(row);
    }

    private static Scaling scaleAndOffset(PointRow row) {
        BigDecimal scale = row.decimal("scale").orElse(BigDecimal.ONE);
        BigDecimal offset = row.decimal("offset").orElse(BigDecimal.ZERO);
        if (scale.abs().compareTo(LARGEST) > 0 || scale.abs().compareTo(SMALLEST) < 0) {
            row.error("scale", "must be between 1e-12 and 1e12, either sign (was " + row.text("scale") + ")");
            return Scaling.NONE;
        }
        if (offset.abs().compareTo(LARGEST) > 0) {
            row.error("offset", "must be between -1e12 and 1e12 (was " + row.text("offset") + ")");
            return Scaling.NONE;
        }
        return new Scaling(scale, offset);
    }

    private static Scaling twoPoints(PointRow row) {
        List<BigDecimal> numbers =
                TWO_POINTS.stream().map(row::decimal).flatMap(Optional::stream).toList();
        if (numbers.size() < TWO_POINTS.size()) {
            return Scaling.NONE;
        }
        if (numbers.stream().anyMatch(number -> number.abs().compareTo(LARGEST) > 0)) {
            row.error("raw-low", "the two points must lie between -1e12 and 1e12");
            return Scaling.NONE;
        }
        if (numbers.get(0).compareTo(numbers.get(1)) == 0) {
            row.error("raw-high", "must differ from raw-low (was " + row.text("raw-high") + ")");
            return Scaling.NONE;
        }
        if (numbers.get(2).compareTo(numbers.get(3)) == 0) {
            row.error("high", "must differ from low (was " + row.text("high") + ")");
            return Scaling.NONE;
        }
        return Scaling.through(numbers.get(0), numbers.get(1), numbers.get(2), numbers.get(3));
    }
}
