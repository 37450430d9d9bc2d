package burnerbridge.values;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** The first line of the reply to {@code values}. */
final class SummaryJson {
    private SummaryJson() {}

    static void write(JsonGenerator json, Summary summary) {
        json.writeStringProperty("at", RowJson.time(summary.at()));
        json.writeNumberProperty("points", summary.points());
        json.writeNumberProperty("good", summary.good());
        json.writeNumberProperty("uncertain", summary.uncertain());
        json.writeNumberProperty("stale", summary.stale());
        json.writeNumberProperty("bad", summary.bad());
        json.writeNumberProperty("waiting", summary.waiting());
        json.writeNumberProperty("rows", summary.rows());
        json.writeName("down");
        json.writeStartArray();
        summary.down().forEach(json::writeString);
        json.writeEndArray();
        json.writeNumberProperty("downCount", summary.downCount());
    }

    /** @throws IllegalArgumentException where it is no such line */
    static Summary read(Map<String, @Nullable Object> line) {
        if (!(line.get("at") instanceof String at) || !(line.get("down") instanceof List<?> down)) {
            throw new IllegalArgumentException("a reply without at and down");
        }
        return new Summary(
                Instant.parse(at),
                number(line, "points"),
                number(line, "good"),
                number(line, "uncertain"),
                number(line, "stale"),
                number(line, "bad"),
                number(line, "waiting"),
                number(line, "rows"),
                down.stream().map(String::valueOf).toList(),
                number(line, "downCount"));
    }

    static int number(Map<String, @Nullable Object> line, String key) {
        if (line.get(key) instanceof BigDecimal number) {
            return number.intValueExact();
        }
        throw new IllegalArgumentException("a reply without " + key);
    }
}
