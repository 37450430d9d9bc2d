package burnerbridge.values;

import burnerbridge.control.JsonLine;
import burnerbridge.model.Reason;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** A row as JSON has it, on the control socket and in {@code values --json}. */
public final class RowJson {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private RowJson() {}

    /** The wall clock of a moment: ISO 8601, UTC, milliseconds. */
    public static String time(Instant moment) {
        return TIME.format(moment);
    }

    /** Seconds with milliseconds. */
    public static String seconds(Duration duration) {
        return BigDecimal.valueOf(duration.toMillis(), 3).toPlainString();
    }

    /** Writes the members of a row's object. */
    public static void write(JsonGenerator json, PointRow row) {
        json.writeStringProperty("controller", row.controller());
        json.writeStringProperty("point", row.point());
        json.writeStringProperty("table", row.table());
        json.writeStringProperty("address", row.address());
        json.writeStringProperty("wire", row.wire());
        text(json, "raw", row.raw());
        shown(json, "value", row.value());
        if (!row.unit().isEmpty()) {
            json.writeStringProperty("unit", row.unit());
        }
        json.writeStringProperty("quality", row.quality().word());
        if (row.reason() != Reason.NONE) {
            json.writeStringProperty("reason", row.reason().word());
        }
        if (row.exceptionCode() != 0) {
            json.writeNumberProperty("exceptionCode", row.exceptionCode());
        }
        text(json, "readAt", row.readAt() == null ? null : time(row.readAt()));
        if (!row.believed()) {
            json.writeStringProperty("clock", "unsure");
        }
        if (row.age() != null) {
            json.writeName("age");
            json.writeNumber(seconds(row.age()));
        }
        if (row.lastGood() != null && row.lastGoodReadAt() != null) {
            json.writeName("lastGood");
            json.writeStartObject();
            shown(json, "value", row.lastGood());
            json.writeStringProperty("readAt", time(row.lastGoodReadAt()));
            json.writeEndObject();
        }
        if (row.asked() != null) {
            json.writeName("asked");
            json.writeStartObject();
            write(json, row.asked());
            json.writeEndObject();
        }
    }

    private static void write(JsonGenerator json, AskedFor asked) {
        json.writeStringProperty("state", asked.state().word());
        if (asked.value() != null) {
            json.writeNumberProperty("slot", asked.slot());
            shown(json, "value", asked.value());
            json.writeStringProperty("by", asked.by());
        }
        if (asked.left() != null) {
            json.writeName("left");
            json.writeNumber(seconds(asked.left()));
        }
        text(json, "why", asked.why().isEmpty() ? null : asked.why());
        json.writeName("untilNextWrite");
        json.writeNumber(seconds(asked.untilNextWrite()));
        if (asked.writesLeft().isPresent()) {
            json.writeNumberProperty("writesLeft", asked.writesLeft().getAsLong());
        }
    }

    private static AskedFor asked(Map<?, ?> asked) {
        Duration wait = duration(asked.get("untilNextWrite"));
        return new AskedFor(
                AskedFor.State.of(String.valueOf(asked.get("state"))),
                asked.get("slot") instanceof BigDecimal slot ? slot.intValueExact() : 0,
                asked.get("text") instanceof String text ? new PointRow.Shown(asked.get("value"), text) : null,
                asked.get("by") instanceof String by ? by : "",
                duration(asked.get("left")),
                asked.get("why") instanceof String why ? why : "",
                wait == null ? Duration.ZERO : wait,
                asked.get("writesLeft") instanceof BigDecimal left
                        ? OptionalLong.of(left.longValueExact())
                        : OptionalLong.empty());
    }

    private static @Nullable Duration duration(@Nullable Object seconds) {
        return seconds instanceof BigDecimal number
                ? Duration.ofMillis(number.movePointRight(3).longValue())
                : null;
    }

    private static void text(JsonGenerator json, String name, @Nullable String text) {
        if (text != null) {
            json.writeStringProperty(name, text);
        }
    }

    private static void shown(JsonGenerator json, String name, PointRow.@Nullable Shown shown) {
        json.writeName(name);
        if (shown == null) {
            json.writeNull();
        } else {
            json.writeRawValue(JsonLine.value(shown.json()));
            json.writeStringProperty("text", shown.text());
        }
    }

    /**
     * Reads what {@link #write} wrote.
     *
     * @throws IllegalArgumentException where it is no row
     */
    static PointRow read(Map<String, @Nullable Object> row) {
        Map<?, ?> lastGood = row.get("lastGood") instanceof Map<?, ?> map ? map : Map.of();
        return new PointRow(
                required(row, "controller"),
                required(row, "point"),
                required(row, "table"),
                required(row, "address"),
                required(row, "wire"),
                row.get("raw") instanceof String raw ? raw : null,
                row.get("text") instanceof String text ? new PointRow.Shown(row.get("value"), text) : null,
                row.get("unit") instanceof String unit ? unit : "",
                reason(row.get("reason")),
                row.get("exceptionCode") instanceof BigDecimal code ? code.intValueExact() : 0,
                moment(row.get("readAt")),
                !row.containsKey("clock"),
                duration(row.get("age")),
                lastGood.get("text") instanceof String text ? new PointRow.Shown(lastGood.get("value"), text) : null,
                moment(lastGood.get("readAt")),
                row.get("asked") instanceof Map<?, ?> asked ? asked(asked) : null);
    }

    private static String required(Map<String, @Nullable Object> row, String key) {
        if (row.get(key) instanceof String text) {
            return text;
        }
        throw new IllegalArgumentException("a row without " + key);
    }

    private static Reason reason(@Nullable Object word) {
        return word instanceof String text
                ? Reason.valueOf(text.toUpperCase(Locale.ROOT).replace('-', '_'))
                : Reason.NONE;
    }

    private static @Nullable Instant moment(@Nullable Object text) {
        return text instanceof String moment ? Instant.parse(moment) : null;
    }
}
