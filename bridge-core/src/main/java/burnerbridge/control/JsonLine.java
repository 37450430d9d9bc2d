package burnerbridge.control;

import java.io.StringWriter;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;

/**
 * One JSON object on one line. Read back, it holds strings, {@link BigDecimal}, booleans, nulls, lists and
 * maps; numbers keep every digit.
 */
public final class JsonLine {
    private static final JsonFactory FACTORY = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(8)
                    .maxNumberLength(400)
                    .build())
            .build();

    private JsonLine() {}

    /** Writes an object, without the end of the line. */
    public static String object(Consumer<JsonGenerator> members) {
        return write(json -> {
            json.writeStartObject();
            members.accept(json);
            json.writeEndObject();
        });
    }

    /** Writes a value that was read, or made of what can be read. */
    public static String value(@Nullable Object value) {
        return write(json -> write(json, value));
    }

    private static String write(Consumer<JsonGenerator> what) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(ObjectWriteContext.empty(), text)) {
            what.accept(json);
        }
        return text.toString();
    }

    /** Writes such a value at the generator's place; numbers without an exponent. */
    public static void write(JsonGenerator json, @Nullable Object value) {
        if (value instanceof Map<?, ?> map) {
            json.writeStartObject();
            map.forEach((key, member) -> {
                json.writeName(String.valueOf(key));
                write(json, member);
            });
            json.writeEndObject();
        } else if (value instanceof List<?> list) {
            json.writeStartArray();
            list.forEach(member -> write(json, member));
            json.writeEndArray();
        } else if (value instanceof BigDecimal number) {
            json.writeNumber(number.toPlainString());
        } else if (value instanceof Boolean bool) {
            json.writeBoolean(bool);
        } else if (value == null) {
            json.writeNull();
        } else {
            json.writeString(value.toString());
        }
    }

    /**
     * Reads one object and nothing behind it.
     *
     * @throws IllegalArgumentException where the text is anything else
     */
    public static Map<String, @Nullable Object> parse(String text) {
        try (JsonParser json = FACTORY.createParser(ObjectReadContext.empty(), text)) {
            if (json.nextToken() != JsonToken.START_OBJECT) {
                throw new IllegalArgumentException("no JSON object");
            }
            Map<String, @Nullable Object> object = members(json);
            if (json.nextToken() != null) {
                throw new IllegalArgumentException("more than one JSON object on a line");
            }
            return object;
        } catch (JacksonException e) {
            throw new IllegalArgumentException("no JSON object: " + e.getOriginalMessage(), e);
        }
    }

    private static Map<String, @Nullable Object> members(JsonParser json) {
        Map<String, @Nullable Object> members = new LinkedHashMap<>();
        while (json.nextToken() != JsonToken.END_OBJECT) {
            String name = json.currentName();
            json.nextToken();
            members.put(name, read(json));
        }
        return members;
    }

    private static @Nullable Object read(JsonParser json) {
        return switch (json.currentToken()) {
            case START_OBJECT -> members(json);
            case START_ARRAY -> elements(json);
            case VALUE_STRING -> json.getString();
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> json.getDecimalValue();
            case VALUE_TRUE -> true;
            case VALUE_FALSE -> false;
            default -> null;
        };
    }

    private static List<@Nullable Object> elements(JsonParser json) {
        List<@Nullable Object> elements = new ArrayList<>();
        while (json.nextToken() != JsonToken.END_ARRAY) {
            elements.add(read(json));
        }
        return elements;
    }
}
