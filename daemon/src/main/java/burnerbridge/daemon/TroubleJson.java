package burnerbridge.daemon;

import burnerbridge.control.JsonLine;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import burnerbridge.values.RowJson;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** One trouble as the members of a JSON object, over the control socket and for programs. */
final class TroubleJson {
    private TroubleJson() {}

    static void write(JsonGenerator json, Trouble trouble) {
        members(trouble).map().forEach((name, value) -> {
            json.writeName(name);
            JsonLine.write(json, value);
        });
    }

    static JsonMembers members(Trouble trouble) {
        Stamp since = trouble.since();
        return new JsonMembers()
                .put("place", trouble.place().word())
                .put("about", trouble.about())
                .put("seen", trouble.seen())
                .put("lookAt", trouble.lookAt())
                .put("since", since == null ? null : RowJson.time(since.wall()))
                .put("weight", trouble.weight().word());
    }

    /** @throws IllegalArgumentException where it is none that this program knows */
    static Trouble read(Map<String, @Nullable Object> line) {
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
}
