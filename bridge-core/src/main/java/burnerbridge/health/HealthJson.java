package burnerbridge.health;

import burnerbridge.control.JsonLine;
import tools.jackson.core.JsonGenerator;

/** A report as one JSON object on one line; times in UTC with milliseconds. */
public final class HealthJson {
    /** The most troubles in one; of the rest there is the number. */
    public static final int MOST_REASONS = 200;

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
        report.troubles().stream().limit(MOST_REASONS).forEach(trouble -> TroubleJson.writeObject(json, trouble));
        json.writeEndArray();
        json.writeNumberProperty("moreReasons", Math.max(0, report.troubles().size() - MOST_REASONS));
        json.writeStringProperty("site", report.site());
        json.writeStringProperty("version", report.version());
        json.writeStringProperty("startedAt", TroubleJson.time(report.startedAt()));
        json.writeStringProperty("clock", report.clockBelieved() ? "believed" : "unsure");
    }
}
