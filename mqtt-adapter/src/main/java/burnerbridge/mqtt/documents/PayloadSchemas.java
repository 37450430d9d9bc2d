package burnerbridge.mqtt.documents;

import static burnerbridge.mqtt.documents.Json.number;
import static burnerbridge.mqtt.documents.Json.object;

import burnerbridge.model.Quality;
import burnerbridge.model.Reason;
import burnerbridge.mqtt.payload.EventPayload;
import burnerbridge.site.ControllerType;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.permit.WriteCaution;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Schemas of the payloads, JSON Schema draft 7, which is also what AsyncAPI takes. */
final class PayloadSchemas {
    private static final String TIME = "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}[.][0-9]{3}Z$";

    private PayloadSchemas() {}

    /** A document of its own, whose definitions are the schemas. */
    static Map<String, Object> document(Site site, MqttSettings.Version version) {
        Map<String, Object> definitions = all(site, version, "#/definitions/");
        return object(
                "$schema",
                "http://json-schema.org/draft-07/schema#",
                "title",
                "MQTT messages of site " + site.name(),
                "description",
                "A message matches the definition of its topic: that of a point is point.TYPE.POINT."
                        + (WritablePoint.all(site).isEmpty() ? "" : " Caution: " + WriteCaution.TEXT),
                "anyOf",
                definitions.keySet().stream()
                        .map(name -> reference("#/definitions/", name))
                        .toList(),
                "definitions",
                definitions);
    }

    /** @param place where the schemas will stand, for references among them */
    static Map<String, Object> all(Site site, MqttSettings.Version version, String place) {
        Map<String, Object> schemas = new LinkedHashMap<>();
        schemas.put("point", point());
        schemas.put("link", link());
        schemas.put("bridge-link", bridgeLink());
        boolean writable = !WritablePoint.all(site).isEmpty();
        schemas.put("event", event(writable));
        schemas.put("about", about());
        schemas.put("bridge-about", bridgeAbout());
        if (writable) {
            schemas.put("permit", WriteSchemas.permit());
        }
        if (WritablePoint.all(site).stream().anyMatch(WritablePoint::mayBeAskedFor)) {
            schemas.put("ask", WriteSchemas.ask(version));
            schemas.put("reply", WriteSchemas.reply(version));
        }
        types(site)
                .forEach(type -> type.points().stream()
                        .filter(PointDefinition::hasReadings)
                        .forEach(p -> schemas.put(nameOf(type, p), pointOf(p, place))));
        return schemas;
    }

    static String nameOf(ControllerType type, PointDefinition point) {
        return "point." + type.name() + "." + point.name();
    }

    static Map<String, Object> reference(String place, String name) {
        return object("$ref", place + name);
    }

    /** The types that controllers have, and those of groups, each once. */
    static List<ControllerType> types(Site site) {
        return site.owners().stream()
                .map(controller -> controller.type())
                .distinct()
                .toList();
    }

    private static Map<String, Object> pointOf(PointDefinition point, String place) {
        Map<String, Object> value = ValueSchemas.of(point);
        Map<String, Object> properties =
                object("value", value, "lastGood", object("properties", object("value", value)));
        if (point.unit() == Unit.NONE) {
            properties.put("unit", false);
        } else {
            properties.put("unit", object("const", point.unit().symbol()));
        }
        Map<String, Object> schema =
                object("allOf", List.of(reference(place, "point"), object("properties", properties)));
        if (!point.description().isEmpty()) {
            schema.put("description", point.descriptionWithBasis());
        }
        return schema;
    }

    private static Map<String, Object> point() {
        Map<String, Object> schema = closed(
                List.of("value", "quality", "sentAt", "validFor", "sequence"),
                object(
                        "value", true,
                        "unit", object("type", "string"),
                        "quality",
                                object(
                                        "enum",
                                        Stream.of(Quality.values())
                                                .map(Quality::word)
                                                .toList()),
                        "reason", object("enum", reasons()),
                        "exceptionCode", object("type", "integer", "minimum", number(1), "maximum", number(255)),
                        "raw", object("type", "string", "pattern", "^[0-9A-F]{4}( [0-9A-F]{4})*$"),
                        "lastGood", closed(List.of("value", "readAt"), object("value", true, "readAt", time())),
                        "readAt", time(),
                        "sentAt", time(),
                        "clock", object("const", "unsure"),
                        "validFor", object("type", "integer", "minimum", number(1)),
                        "sequence", sequence()));
        schema.put("if", object("properties", object("quality", object("const", Quality.GOOD.word()))));
        schema.put(
                "then",
                object(
                        "required",
                        List.of("readAt"),
                        "properties",
                        object("value", object("not", object("type", "null")), "reason", false, "lastGood", false)));
        schema.put("else", object("required", List.of("reason")));
        return schema;
    }

    private static List<String> reasons() {
        return Stream.of(Reason.values())
                .filter(reason -> reason != Reason.NONE)
                .map(Reason::word)
                .toList();
    }

    private static Map<String, Object> link() {
        return closed(
                List.of("state", "sentAt", "validFor", "sequence"),
                object(
                        "state",
                                object(
                                        "enum",
                                        Stream.of(ControllerLink.State.values())
                                                .map(s -> s.word())
                                                .toList()),
                        "reason",
                                object(
                                        "enum",
                                        Stream.of(ControllerLink.Cause.values())
                                                .map(c -> c.word())
                                                .toList()),
                        "detail", object("type", "string"),
                        "since", time(),
                        "sentAt", time(),
                        "clock", object("const", "unsure"),
                        "validFor", object("type", "integer", "minimum", number(1)),
                        "sequence", sequence()));
    }

    private static Map<String, Object> bridgeLink() {
        return closed(
                List.of("state"),
                object(
                        "state", object("enum", List.of("up", "down")),
                        "reason", object("enum", List.of("stopped", "connection-lost")),
                        "start", object("type", "string"),
                        "audit", object("type", "string", "pattern", "^[0-9]+:[0-9a-f]{64}$"),
                        "since", time(),
                        "sentAt", time(),
                        "clock", object("const", "unsure"),
                        "validFor", object("type", "integer", "minimum", number(1)),
                        "sequence", sequence()));
    }

    private static Map<String, Object> event(boolean writable) {
        List<String> words = Stream.concat(
                        Stream.of("started", "stopped", "communication-lost", "communication-back"),
                        writable ? EventPayload.wordsOfWrites() : Stream.of())
                .toList();
        return closed(
                List.of("id", "event", "at", "sentAt"),
                object(
                        "id", object("type", "string"),
                        "event", object("enum", words),
                        "point", object("type", "string"),
                        "reason", object("type", "string"),
                        "detail", object("type", "string"),
                        "at", time(),
                        "sentAt", time(),
                        "clock", object("const", "unsure"),
                        "givenUp", object("type", "integer", "minimum", number(1))));
    }

    private static Map<String, Object> about() {
        Map<String, Object> schema = open(
                List.of("site", "client", "start", "sentAt", "controller", "type", "points"),
                object(
                        "points",
                        object(
                                "type",
                                "array",
                                "items",
                                open(
                                        List.of("name", "role", "value", "every", "staleAfter"),
                                        object("name", object("type", "string"))))));
        return schema;
    }

    private static Map<String, Object> bridgeAbout() {
        return open(
                List.of("site", "client", "start", "sentAt", "timeZone", "controllers", "groups"),
                object("controllers", names(), "groups", names()));
    }

    private static Map<String, Object> names() {
        return object("type", "array", "items", object("type", "string"));
    }

    static Map<String, Object> closed(List<String> required, Map<String, Object> properties) {
        Map<String, Object> schema = open(required, properties);
        schema.put("additionalProperties", false);
        return schema;
    }

    /** Others may be added in later versions. */
    private static Map<String, Object> open(List<String> required, Map<String, Object> properties) {
        return object("type", "object", "required", required, "properties", properties);
    }

    static Map<String, Object> time() {
        return object("type", "string", "pattern", TIME);
    }

    static Map<String, Object> sequence() {
        return object("type", "integer", "minimum", number(1));
    }
}
