package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import java.io.StringWriter;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.function.Consumer;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.json.JsonFactory;

/** The parts that all payloads share. */
final class Json {
    private static final JsonFactory FACTORY = JsonFactory.builder().build();
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private Json() {}

    /** One JSON object. */
    static String object(Consumer<JsonGenerator> members) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(ObjectWriteContext.empty(), text)) {
            json.writeStartObject();
            members.accept(json);
            json.writeEndObject();
        }
        return text.toString();
    }

    /** The wall clock of a moment: ISO 8601, UTC, milliseconds. */
    static String time(Stamp stamp) {
        return time(stamp.wall());
    }

    static String time(Instant moment) {
        return TIME.format(moment);
    }
}
