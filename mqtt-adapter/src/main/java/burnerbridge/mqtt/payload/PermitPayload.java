package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.unit.Unit;
import burnerbridge.write.PermitStatus;
import java.math.BigDecimal;
import java.time.Duration;
import tools.jackson.core.JsonGenerator;

/**
 * How a write permit stands:
 * {@code {"winner":12,"slots":[{"slot":12,"value":55,"source":"mqtt plant optimiser","left":871,"until":"…Z"}],"unit":"%",
 * "readBack":55,"wait":12,"sentAt":"…Z","validFor":60,"sequence":7}}.
 *
 * <p>{@code slots} are all that are held, the one that wins first, which {@code winner} names; null and an empty list where
 * nobody asks. A lease ends {@code left} seconds after {@code sentAt}, rounded down, which is {@code until} by the wall
 * clock, if nobody asks again. {@code held}, {@code failed} and {@code asleep} say why what wins does not stand;
 * {@code silenceOwed} that the value for silence is yet to be written. {@code wait} is in how many seconds the next write
 * may leave, rounded up. Where writes are counted, {@code spent} of {@code budget} are.
 */
public final class PermitPayload {
    /** Seconds. */
    static final long VALID_FOR = 60;

    private static final long SECOND = Duration.ofSeconds(1).toNanos();

    private PermitPayload() {}

    public static Telling of(PointDefinition point, PermitStatus status, Stamp now, long sequence) {
        return new Telling(
                Json.object(json -> {
                    slots(json, point, status, now);
                    if (point.unit() != Unit.NONE) {
                        json.writeStringProperty("unit", point.unit().symbol());
                    }
                    status.readBack().ifPresent(value -> value(json, "readBack", point, value));
                    text(json, "held", status.held());
                    text(json, "failed", status.failed());
                    text(json, "asleep", status.asleep());
                    if (status.silenceOwed()) {
                        json.writeBooleanProperty("silenceOwed", true);
                    }
                    if (status.untilNextWrite() > 0) {
                        json.writeNumberProperty("wait", (status.untilNextWrite() + SECOND - 1) / SECOND);
                    }
                    if (status.budget().isPresent()) {
                        json.writeNumberProperty("spent", status.spent());
                        json.writeNumberProperty("budget", status.budget().getAsLong());
                    }
                    json.writeStringProperty("sentAt", Json.time(now));
                    if (!now.believed()) {
                        json.writeStringProperty("clock", "unsure");
                    }
                    json.writeNumberProperty("validFor", VALID_FOR);
                    json.writeNumberProperty("sequence", sequence);
                }),
                VALID_FOR);
    }

    private static void slots(JsonGenerator json, PointDefinition point, PermitStatus status, Stamp now) {
        json.writeName("winner");
        status.winner().ifPresentOrElse(held -> json.writeNumber(held.slot()), json::writeNull);
        json.writeName("slots");
        json.writeStartArray();
        status.slots().forEach(held -> slot(json, point, held, now));
        json.writeEndArray();
    }

    private static void slot(JsonGenerator json, PointDefinition point, PermitStatus.Held held, Stamp now) {
        json.writeStartObject();
        json.writeNumberProperty("slot", held.slot());
        value(json, "value", point, held.value());
        json.writeStringProperty("source", held.source().text());
        held.left().ifPresent(left -> {
            json.writeNumberProperty("left", left / SECOND);
            json.writeStringProperty("until", Json.time(now.wall().plusNanos(left)));
        });
        json.writeEndObject();
    }

    private static void value(JsonGenerator json, String name, PointDefinition point, BigDecimal value) {
        json.writeName(name);
        AskedValue.write(json, point, value);
    }

    private static void text(JsonGenerator json, String name, String text) {
        if (!text.isEmpty()) {
            json.writeStringProperty(name, text);
        }
    }
}
