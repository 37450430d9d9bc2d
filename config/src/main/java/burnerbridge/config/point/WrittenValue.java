package burnerbridge.config.point;

import burnerbridge.config.row.PointRow;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What two rows say of the value behind the same bits, as it is written and not as it is shown. */
final class WrittenValue {
    private static final Map<String, BigDecimal> DEFAULTS = Map.of("scale", BigDecimal.ONE, "offset", BigDecimal.ZERO);
    private static final List<String> NUMBERS = List.of("scale", "offset", "raw-low", "raw-high", "low", "high");
    private static final List<String> WORDS = List.of("scale-by", "unit", "basis");

    private WrittenValue() {}

    /** The first column in which the two differ; empty where both say the same. */
    static Optional<String> firstDifference(PointRow one, PointRow other) {
        return NUMBERS.stream()
                .filter(column -> !isSameNumber(number(one, column), number(other, column)))
                .findFirst()
                .or(() -> WORDS.stream()
                        .filter(column -> !one.text(column).equals(other.text(column)))
                        .findFirst());
    }

    private static Optional<BigDecimal> number(PointRow row, String column) {
        return row.decimal(column).or(() -> Optional.ofNullable(DEFAULTS.get(column)));
    }

    private static boolean isSameNumber(Optional<BigDecimal> one, Optional<BigDecimal> other) {
        return one.isPresent() == other.isPresent()
                && (one.isEmpty() || one.get().compareTo(other.orElseThrow()) == 0);
    }
}
