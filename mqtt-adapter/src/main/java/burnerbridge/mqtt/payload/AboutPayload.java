package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.WriteCaution;
import burnerbridge.site.unit.Unit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import tools.jackson.core.JsonGenerator;

/**
 * What an {@code about} topic says. The one of the bridge names the site and its controllers; that of a
 * controller lists its points with unit, role, states, times and BACnet object, so that a reader needs
 * nothing else to understand their topics. {@code client} is the bridge that wrote it, {@code start} its
 * start, from which every {@code sequence} counts.
 */
public interface AboutPayload {
    String json(Stamp now);

    /**
     * Who describes.
     *
     * @param startId tells this start of the bridge from every other
     */
    record Author(String clientId, String startId) {}

    static AboutPayload ofBridge(Author author, Site site) {
        return now -> Json.object(json -> {
            head(json, author, site, now);
            text(json, "description", site.description());
            json.writeStringProperty("timeZone", site.zone().getId());
            names(json, "controllers", site.controllers());
            names(json, "groups", site.groups());
        });
    }

    private static void names(JsonGenerator json, String member, List<ControllerDefinition> named) {
        json.writeName(member);
        json.writeStartArray();
        named.forEach(controller -> json.writeString(controller.name().text()));
        json.writeEndArray();
    }

    /** @param points those that have a topic */
    static AboutPayload ofController(
            Author author, Site site, ControllerDefinition controller, List<SitePoint> points) {
        Map<PointId, Purpose.Asked> asked = site.asked();
        return now -> Json.object(json -> {
            head(json, author, site, now);
            json.writeStringProperty("controller", controller.name().text());
            json.writeStringProperty("type", controller.type().name().text());
            if (points.stream().anyMatch(point -> asked.containsKey(point.id()))) {
                json.writeStringProperty("caution", WriteCaution.TEXT);
            }
            json.writeName("points");
            json.writeStartArray();
            points.forEach(point -> point(json, site, point, Optional.ofNullable(asked.get(point.id()))));
            json.writeEndArray();
        });
    }

    private static void head(JsonGenerator json, Author author, Site site, Stamp now) {
        json.writeStringProperty("site", site.name().text());
        json.writeStringProperty("client", author.clientId());
        json.writeStringProperty("start", author.startId());
        json.writeStringProperty("sentAt", Json.time(now));
        if (!now.believed()) {
            json.writeStringProperty("clock", "unsure");
        }
    }

    private static void point(JsonGenerator json, Site site, SitePoint point, Optional<Purpose.Asked> asked) {
        PointDefinition definition = point.definition();
        json.writeStartObject();
        json.writeStringProperty("name", definition.name().text());
        text(json, "description", definition.description());
        json.writeStringProperty("role", definition.role().word());
        definition.options().meaning().ifPresent(meaning -> json.writeStringProperty("means", meaning.word()));
        json.writeStringProperty("value", ValueKind.of(definition).word());
        unit(json, definition);
        states(json, definition);
        seconds(json, "every", definition.every());
        seconds(json, "staleAfter", definition.staleAfter());
        if (definition.change().signum() > 0) {
            json.writeName("change");
            json.writeNumber(definition.change().toPlainString());
        }
        object(json, site, point);
        asked.ifPresent(terms -> permit(json, terms));
        json.writeEndObject();
    }

    private static void permit(JsonGenerator json, Purpose.Asked asked) {
        json.writeName("permit");
        json.writeStartObject();
        json.writeStringProperty("allowed", asked.allowed().text());
        asked.step().ifPresent(step -> {
            json.writeName("step");
            json.writeNumber(step.toPlainString());
        });
        seconds(json, "interval", asked.interval());
        asked.silence().ifPresent(silence -> seconds(json, "silenceAfter", silence.after()));
        json.writeBooleanProperty("mqtt", asked.from().mqtt());
        if (asked.from().mqtt()) {
            json.writeNumberProperty("slot", asked.mqttPriority());
        }
        json.writeEndObject();
    }

    private static void unit(JsonGenerator json, PointDefinition definition) {
        Unit unit = definition.unit();
        if (unit != Unit.NONE) {
            json.writeStringProperty("unit", unit.symbol());
            unit.ucumCodes().stream().findFirst().ifPresent(code -> json.writeStringProperty("ucum", code));
        }
        text(json, "basis", definition.basis().text());
    }

    private static void states(JsonGenerator json, PointDefinition definition) {
        if (definition.states().isEmpty()) {
            return;
        }
        json.writeName("states");
        json.writeStartArray();
        definition.states().texts().forEach((number, text) -> {
            json.writeStartObject();
            json.writeNumberProperty("number", number);
            json.writeStringProperty("text", text);
            definition
                    .states()
                    .severity(number)
                    .ifPresent(severity -> json.writeStringProperty("severity", severity.word()));
            json.writeEndObject();
        });
        json.writeEndArray();
    }

    private static void object(JsonGenerator json, Site site, SitePoint point) {
        OptionalInt instance = site.bindings().instanceOf(point);
        if (site.bacnet().isPresent() && point.definition().wantsObject() && instance.isPresent()) {
            json.writeName("object");
            json.writeStartObject();
            json.writeStringProperty("type", point.definition().object().word());
            json.writeNumberProperty("instance", instance.getAsInt());
            json.writeEndObject();
        }
    }

    private static void seconds(JsonGenerator json, String name, java.time.Duration time) {
        json.writeName(name);
        json.writeNumber(java.math.BigDecimal.valueOf(time.toMillis(), 3)
                .stripTrailingZeros()
                .toPlainString());
    }

    private static void text(JsonGenerator json, String name, String text) {
        if (!text.isEmpty()) {
            json.writeStringProperty(name, text);
        }
    }
}
