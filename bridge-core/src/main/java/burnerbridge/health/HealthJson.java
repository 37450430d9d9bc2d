package burnerbridge.health;

import burnerbridge.control.JsonLine;
import burnerbridge.model.Stamp;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import tools.jackson.core.JsonGenerator;

/** A report as one JSON object on one line; times in UTC with milliseconds. */
public final class HealthJson {
    /** The most troubles in one; of the rest there is the number. */
    public static final int MOST_REASONS = 200;

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private HealthJson() {}

    /** Without the end of the line. */
    public static String of(HealthReport report) {
        return JsonLine.object(json -> members(json, report));
    }

    private static void members(JsonGenerator json, HealthReport report) {
        json.writeBooleanProperty("alive", report.alive());
        if (!report.stalled().isEmpty()) {
            json.writeName("stalled");
            JsonLine.write(json, report.stalled());
        }
        json.writeBooleanProperty("ready", report.ready());
        json.writeBooleanProperty("degraded", report.degraded());
        json.writeArrayPropertyStart("reasons");
        report.troubles().stream().limit(MOST_REASONS).forEach(trouble -> reason(json, trouble));
        json.writeEndArray();
        json.writeNumberProperty("moreReasons", Math.max(0, report.troubles().size() - MOST_REASONS));
        json.writeStringProperty("site", report.site());
        json.writeStringProperty("version", report.version());
        json.writeStringProperty("startedAt", time(report.startedAt()));
        json.writeStringProperty("clock", report.clockBelieved() ? "believed" : "unsure");
    }

    private static void reason(JsonGenerator json, Trouble trouble) {
        json.writeStartObject();
        json.writeStringProperty("place", trouble.place().word());
        json.writeStringProperty("about", trouble.about());
        json.writeStringProperty("seen", trouble.seen());
        json.writeStringProperty("lookAt", trouble.lookAt());
        Stamp since = trouble.since();
        json.writeName("since");
        JsonLine.write(json, since == null ? null : time(since));
        json.writeStringProperty("weight", trouble.weight().word());
        json.writeEndObject();
    }

    private static String time(Stamp stamp) {
        return TIME.format(stamp.wall());
    }
}
