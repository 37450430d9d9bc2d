package burnerbridge.mqtt.payload;

import burnerbridge.control.JsonLine;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.unit.Unit;
import burnerbridge.values.ValueForm;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/**
 * What the topic of a point says:
 * {@code {"value":42.5,"unit":"%","quality":"good","readAt":"…Z","sentAt":"…Z","validFor":30,"sequence":118}}.
 *
 * <p>{@code value} is null unless the reading is good or its state has no text. A reading that is not
 * good has its {@code reason} and, where there was one, {@code lastGood} with value and time; a refused
 * one the {@code exceptionCode}; one out of range the registers as {@code raw}, in hexadecimal.
 * {@code readAt} is when the registers were asked for, left out where nothing was read.
 * {@code clock} is there, as {@code unsure}, where one of the times comes from a clock that is not
 * believed. {@code unit} is left out for a point without. {@code validFor} counts from {@code sentAt}.
 */
public final class PointPayload {
    private PointPayload() {}

    public static String of(PointDefinition point, Reading reading, Stamp now, long validFor, long sequence) {
        return Json.object(json -> {
            json.writeName("value");
            write(json, shown(reading), point);
            if (point.unit() != Unit.NONE) {
                json.writeStringProperty("unit", point.unit().symbol());
            }
            json.writeStringProperty("quality", reading.quality().word());
            if (!reading.isGood()) {
                excuse(json, point, reading);
            }
            times(json, reading, now);
            json.writeNumberProperty("validFor", validFor);
            json.writeNumberProperty("sequence", sequence);
        });
    }

    /** A value that means nothing in the controller's present state is not shown, though it was read. */
    private static @Nullable Value shown(Reading reading) {
        return reading.reason() == Reason.NOT_APPLICABLE ? null : reading.value();
    }

    private static void write(JsonGenerator json, @Nullable Value value, PointDefinition point) {
        JsonLine.write(json, value == null ? null : ValueForm.json(value, point.states()));
    }

    private static void excuse(JsonGenerator json, PointDefinition point, Reading reading) {
        json.writeStringProperty("reason", reading.reason().word());
        if (reading.reason() == Reason.REFUSED) {
            json.writeNumberProperty("exceptionCode", reading.exceptionCode());
        }
        if (isOutOfRange(reading) && reading.raw() != null) {
            json.writeStringProperty("raw", reading.raw().hex());
        }
        Reading.Good lastGood = reading.lastGood();
        if (lastGood != null) {
            json.writeName("lastGood");
            json.writeStartObject();
            json.writeName("value");
            write(json, lastGood.value(), point);
            json.writeStringProperty("readAt", Json.time(lastGood.askedAt()));
            json.writeEndObject();
        }
    }

    private static boolean isOutOfRange(Reading reading) {
        return reading.reason() == Reason.OVER_RANGE || reading.reason() == Reason.UNDER_RANGE;
    }

    private static void times(JsonGenerator json, Reading reading, Stamp now) {
        if (reading.askedAt() != null) {
            json.writeStringProperty("readAt", Json.time(reading.askedAt()));
        }
        json.writeStringProperty("sentAt", Json.time(now));
        Reading.Good lastGood = reading.lastGood();
        if (!now.believed() || isUnsure(reading.askedAt()) || (lastGood != null && isUnsure(lastGood.askedAt()))) {
            json.writeStringProperty("clock", "unsure");
        }
    }

    private static boolean isUnsure(@Nullable Stamp stamp) {
        return stamp != null && !stamp.believed();
    }
}
