package burnerbridge.scan;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** A row as JSON has it, on the control socket and in {@code values --plan --json}. */
public final class ScanJson {
    private ScanJson() {}

    /** Seconds with microseconds. */
    public static String seconds(Duration duration) {
        return BigDecimal.valueOf(duration.toNanos() / 1000, 6).toPlainString();
    }

    /** A share of 1, with six digits. */
    public static String share(double share) {
        return BigDecimal.valueOf(share).setScale(6, RoundingMode.HALF_UP).toPlainString();
    }

    /** Writes the members of a row's object. */
    public static void write(JsonGenerator json, ScanRow row) {
        json.writeStringProperty("line", row.line());
        if (row instanceof ScanRow.Line line) {
            write(json, line);
        } else if (row instanceof ScanRow.Controller controller) {
            write(json, controller);
        }
    }

    private static void write(JsonGenerator json, ScanRow.Line line) {
        json.writeNumberProperty("reads", line.reads());
        duration(json, "predictedScan", line.scan());
        number(json, "predictedLoad", share(line.load()));
        number(json, "measuredLoad", line.measuredLoad() == null ? null : share(line.measuredLoad()));
    }

    private static void write(JsonGenerator json, ScanRow.Controller row) {
        json.writeStringProperty("controller", row.controller());
        duration(json, "every", row.every());
        duration(json, "achieved", row.achieved());
        json.writeNumberProperty("reads", row.reads());
        duration(json, "predictedScan", row.scan());
        duration(json, "measuredScan", row.measuredScan());
        number(json, "predictedLoad", share(row.load()));
        duration(json, "plannedTurnaround", row.turnaround());
        duration(json, "learnedTurnaround", row.learned());
        json.writeNumberProperty("leftOut", row.leftOut());
        json.writeNumberProperty("requests", row.requests());
        json.writeStringProperty("link", row.link());
        json.writeStringProperty("detail", row.detail());
        json.writeName("refused");
        json.writeStartArray();
        row.refused().forEach(json::writeString);
        json.writeEndArray();
        json.writeNumberProperty("refusedCount", row.refusedCount());
    }

    private static void duration(JsonGenerator json, String name, @Nullable Duration duration) {
        number(json, name, duration == null ? null : seconds(duration));
    }

    private static void number(JsonGenerator json, String name, @Nullable String number) {
        json.writeName(name);
        if (number == null) {
            json.writeNull();
        } else {
            json.writeNumber(number);
        }
    }

    /**
     * Reads what {@link #write} wrote.
     *
     * @throws IllegalArgumentException where it is no row
     */
    static ScanRow read(Map<String, @Nullable Object> row) {
        return row.containsKey("controller") ? controller(row) : line(row);
    }

    private static ScanRow line(Map<String, @Nullable Object> row) {
        BigDecimal measured = number(row, "measuredLoad");
        return new ScanRow.Line(
                text(row, "line"),
                count(row, "reads"),
                requiredDuration(row, "predictedScan"),
                required(row, "predictedLoad").doubleValue(),
                measured == null ? null : (Double) measured.doubleValue());
    }

    private static ScanRow controller(Map<String, @Nullable Object> row) {
        if (!(row.get("refused") instanceof List<?> refused)) {
            throw new IllegalArgumentException("a row without refused");
        }
        return new ScanRow.Controller(
                text(row, "line"),
                text(row, "controller"),
                requiredDuration(row, "every"),
                count(row, "reads"),
                requiredDuration(row, "predictedScan"),
                duration(row, "measuredScan"),
                required(row, "predictedLoad").doubleValue(),
                requiredDuration(row, "plannedTurnaround"),
                duration(row, "learnedTurnaround"),
                duration(row, "achieved"),
                required(row, "leftOut").longValueExact(),
                required(row, "requests").longValueExact(),
                text(row, "link"),
                text(row, "detail"),
                refused.stream().map(String::valueOf).toList(),
                count(row, "refusedCount"));
    }

    static int count(Map<String, @Nullable Object> row, String key) {
        return required(row, key).intValueExact();
    }

    private static String text(Map<String, @Nullable Object> row, String key) {
        if (row.get(key) instanceof String text) {
            return text;
        }
        throw new IllegalArgumentException("a row without " + key);
    }

    private static @Nullable BigDecimal number(Map<String, @Nullable Object> row, String key) {
        return row.get(key) instanceof BigDecimal number ? number : null;
    }

    private static BigDecimal required(Map<String, @Nullable Object> row, String key) {
        BigDecimal number = number(row, key);
        if (number == null) {
            throw new IllegalArgumentException("a row without " + key);
        }
        return number;
    }

    private static @Nullable Duration duration(Map<String, @Nullable Object> row, String key) {
        return number(row, key) == null ? null : requiredDuration(row, key);
    }

    private static Duration requiredDuration(Map<String, @Nullable Object> row, String key) {
        return Duration.ofNanos(required(row, key).movePointRight(9).longValue());
    }
}
