package burnerbridge.mqtt.documents;

import static burnerbridge.mqtt.documents.Json.number;
import static burnerbridge.mqtt.documents.Json.object;

import burnerbridge.mqtt.payload.ValueKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Severity;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What a point's value looks like where it is not null. */
final class ValueSchemas {
    private static final long EXACT_IN_A_DOUBLE = 1L << 53;

    private ValueSchemas() {}

    /** The schemas of which a value matches one, null among them. */
    static Map<String, Object> of(PointDefinition point) {
        List<Object> choices = new ArrayList<>(choices(point));
        choices.add(object("type", "null"));
        return object("anyOf", choices);
    }

    private static List<Map<String, Object>> choices(PointDefinition point) {
        return switch (ValueKind.of(point)) {
            case NUMBER -> List.of(object("type", "number"));
            case WHOLE -> whole();
            case STATE -> List.of(state(point));
            case BIT -> List.of(object("type", "boolean"));
            case TEXT -> List.of(object("type", "string"));
            case DATE_TIME ->
                List.of(object(
                        "type",
                        "string",
                        "pattern",
                        "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}([.][0-9]+)?$"));
        };
    }

    private static List<Map<String, Object>> whole() {
        return List.of(
                object("type", "integer", "minimum", number(-EXACT_IN_A_DOUBLE), "maximum", number(EXACT_IN_A_DOUBLE)),
                object("type", "string", "pattern", "^-?[1-9][0-9]{15,}$"));
    }

    private static Map<String, Object> state(PointDefinition point) {
        List<Object> texts = new ArrayList<>();
        point.states().texts().values().stream().distinct().forEach(text -> texts.add(object("const", text)));
        texts.add(object("type", "null"));
        Map<String, Object> properties = object("number", object("anyOf", whole()), "text", object("anyOf", texts));
        if (!point.states().severities().isEmpty()) {
            properties.put("severity", object("enum", Severity.words()));
        }
        return object(
                "type",
                "object",
                "required",
                List.of("number", "text"),
                "additionalProperties",
                false,
                "properties",
                properties);
    }
}
