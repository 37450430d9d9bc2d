package burnerbridge.health;

import burnerbridge.control.JsonLine;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** One trouble as the members of a JSON object, wherever programs read it; times in UTC with milliseconds. */
public final class TroubleJson {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private TroubleJson() {}

    /** Writes the members of an object that is open. */
    public static void write(JsonGenerator json, Trouble trouble) {
        json.writeStringProperty("place", trouble.place().word());
        json.writeStringProperty("about", trouble.about());
        json.writeStringProperty("seen", trouble.seen());
        json.writeStringProperty("lookAt", trouble.lookAt());
        Stamp since = trouble.since();
        json.writeName("since");
        JsonLine.write(json, since == null ? null : time(since));
        json.writeStringProperty("weight", trouble.weight().word());
    }

    /** Writes one as an object of its own. */
    public static void writeObject(JsonGenerator json, Trouble trouble) {
        json.writeStartObject();
        write(json, trouble);
        json.writeEndObject();
    }

    /** @throws IllegalArgumentException where it is none that this program knows */
    public static Trouble read(Map<String, @Nullable Object> line) {
        Object since = line.get("since");
        return new Trouble(
                Place.valueOf(constant(line, "place")),
                text(line, "about"),
                text(line, "seen"),
                text(line, "lookAt"),
                // Its tick is that of another process, and means nothing here.
                since == null ? null : new Stamp(0, Instant.parse(since.toString()), true),
                Weight.valueOf(constant(line, "weight")));
    }

    private static String constant(Map<String, @Nullable Object> line, String name) {
        return text(line, name).toUpperCase(Locale.ROOT).replace('-', '_');
    }

    private static String text(Map<String, @Nullable Object> line, String name) {
        return Objects.toString(line.get(name), "");
    }

    static String time(Stamp stamp) {
        return TIME.format(stamp.wall());
    }
}
