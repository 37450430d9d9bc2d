package burnerbridge.mqtt.documents;

import static burnerbridge.mqtt.documents.Json.number;
import static burnerbridge.mqtt.documents.Json.object;

import burnerbridge.mqtt.payload.ReplyPayload;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.permit.Purpose;
import java.util.List;
import java.util.Map;

/** Schemas of what is asked, answered and told of permits. */
final class WriteSchemas {
    /** As the door has them. */
    private static final long LONGEST_BY = 60;

    private static final long LONGEST_ID = 64;

    private WriteSchemas() {}

    static Map<String, Object> ask(MqttSettings.Version version) {
        Map<String, Object> properties =
                object("value", object("type", List.of("number", "string", "boolean", "null")), "by", text(LONGEST_BY));
        if (version == MqttSettings.Version.V5) {
            return PayloadSchemas.closed(List.of("value", "by"), properties);
        }
        properties.put("id", text(LONGEST_ID));
        properties.put("expires", object("type", "string", "pattern", "Z$"));
        return PayloadSchemas.closed(List.of("value", "by", "id", "expires"), properties);
    }

    static Map<String, Object> reply(MqttSettings.Version version) {
        Map<String, Object> properties = object(
                "result",
                object("enum", ReplyPayload.Result.words().toList()),
                "value",
                true,
                "unit",
                object("type", "string"),
                "renewed",
                object("const", true),
                "winner",
                PayloadSchemas.closed(List.of("slot", "source"), object("slot", slot(), "source", text())),
                "code",
                text(),
                "sentence",
                text(),
                "sentAt",
                PayloadSchemas.time(),
                "clock",
                object("const", "unsure"));
        if (version != MqttSettings.Version.V5) {
            properties.put("id", text(LONGEST_ID));
        }
        Map<String, Object> schema = PayloadSchemas.closed(List.of("result", "sentAt"), properties);
        schema.put("if", object("properties", object("result", object("const", ReplyPayload.Result.ACCEPTED.word()))));
        schema.put("then", object("required", List.of("value")));
        schema.put("else", object("properties", object("value", false)));
        return schema;
    }

    static Map<String, Object> permit() {
        return PayloadSchemas.closed(
                List.of("winner", "slots", "sentAt", "validFor", "sequence"),
                object(
                        "winner", object("anyOf", List.of(slot(), object("type", "null"))),
                        "slots",
                                object(
                                        "type",
                                        "array",
                                        "maxItems",
                                        number(Purpose.Asked.LAST_PRIORITY),
                                        "items",
                                        PayloadSchemas.closed(
                                                List.of("slot", "value", "source"),
                                                object(
                                                        "slot", slot(),
                                                        "value", true,
                                                        "source", text(),
                                                        "left", whole(),
                                                        "until", PayloadSchemas.time()))),
                        "unit", object("type", "string"),
                        "readBack", true,
                        "held", text(),
                        "failed", text(),
                        "asleep", text(),
                        "silenceOwed", object("const", true),
                        "wait", whole(),
                        "spent", whole(),
                        "budget", whole(),
                        "sentAt", PayloadSchemas.time(),
                        "clock", object("const", "unsure"),
                        "validFor", object("type", "integer", "minimum", number(1)),
                        "sequence", PayloadSchemas.sequence()));
    }

    private static Map<String, Object> slot() {
        return object("type", "integer", "minimum", number(1), "maximum", number(Purpose.Asked.LAST_PRIORITY));
    }

    private static Map<String, Object> whole() {
        return object("type", "integer", "minimum", number(0));
    }

    private static Map<String, Object> text() {
        return object("type", "string", "minLength", number(1));
    }

    private static Map<String, Object> text(long longest) {
        return object("type", "string", "minLength", number(1), "maxLength", number(longest));
    }
}
