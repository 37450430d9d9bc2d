package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.Limits;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads {@code no-value} ({@code 0x7FFF|-1}) and {@code valid} ({@code -20..150}). */
public final class LimitCells {
    private static final String NUMBER = "[+-]?\\d{1,12}(?:\\.\\d{1,12})?";
    private static final Pattern RANGE = Pattern.compile("(" + NUMBER + ")\\s*\\.\\.\\s*(" + NUMBER + ")");

    private LimitCells() {}

    public static Limits read(PointRow row) {
        return new Limits(patterns(row), valid(row));
    }

    private static Set<BigDecimal> patterns(PointRow row) {
        Set<BigDecimal> patterns = new HashSet<>();
        if (row.has("no-value")) {
            for (String part : row.text("no-value").split("\\|", -1)) {
                pattern(row, part.strip()).ifPresent(patterns::add);
            }
        }
        return patterns;
    }

    private static Optional<BigDecimal> pattern(PointRow row, String part) {
        if (part.matches("0[xX][0-9a-fA-F]{1,16}")) {
            return Optional.of(new BigDecimal(new BigInteger(part.substring(2), 16)));
        }
        if (part.matches("[+-]?\\d{1,20}(\\.\\d{1,12})?")) {
            return Optional.of(new BigDecimal(part));
        }
        row.error(
                "no-value",
                "must be raw numbers, decimal or with 0x, separated by |, like 0x7FFF|0x8000 (was '" + part + "')");
        return Optional.empty();
    }

    private static Optional<Limits.Range> valid(PointRow row) {
        if (!row.has("valid")) {
            return Optional.empty();
        }
        Matcher range = RANGE.matcher(row.text("valid"));
        if (range.matches()) {
            BigDecimal low = new BigDecimal(range.group(1));
            BigDecimal high = new BigDecimal(range.group(2));
            if (low.compareTo(high) < 0) {
                return Optional.of(new Limits.Range(low, high));
            }
        }
        row.error("valid", "must be low..high, the lower one first, like -20..150 (was '" + row.text("valid") + "')");
        return Optional.empty();
    }
}
