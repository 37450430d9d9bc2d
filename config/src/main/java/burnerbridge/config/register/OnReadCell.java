package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.type.TypeSettings;
import java.time.Duration;
import java.util.List;
import java.util.Set;

/** The {@code on-read} column: what a read does to the registers. */
public final class OnReadCell {
    public static final String COLUMN = "on-read";
    public static final String CLEARS = "clears";

    private static final List<String> NEED_OTHER_READS = List.of("read-group", "scale-by", "verify");

    private OnReadCell() {}

    /** Whether a read clears the point. */
    public static boolean isCleared(PointRow row) {
        boolean clears = row.word(COLUMN, Set.of(CLEARS)).isPresent();
        if (clears) {
            NEED_OTHER_READS.stream()
                    .filter(row::has)
                    .forEach(column -> row.error(column, "what a read clears is read once and alone"));
            if (row.text("address").indexOf('+') >= 0) {
                row.error("address", "what a read clears is read once, and words that are apart need three reads");
            }
        }
        return clears;
    }

    /** How often the point is read: never where a read clears it and nobody asked for that. */
    public static Duration every(PointRow row, boolean clears, Duration every, TypeSettings type) {
        if (!clears || type.readsClearing(row.text("name"))) {
            return every;
        }
        if (!every.isZero()) {
            row.note(
                    COLUMN,
                    row.text("name") + " is not read, since that clears it; types." + type.name() + "."
                            + TypeReader.READ_CLEARING + ": [" + row.text("name") + "] asks for it");
        }
        return Duration.ZERO;
    }
}
