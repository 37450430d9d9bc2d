package burnerbridge.mqtt.door;

import burnerbridge.control.JsonLine;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** What the payload of an ask says: {@code {"value":55,"by":"plant optimiser"}}. Pure. */
sealed interface AskText {
    /** The code of what is no ask at all. */
    String MALFORMED = "malformed";

    int LONGEST_BY = 60;
    int LONGEST_ID = 64;

    /** Characters of what is shown of a value that is none. */
    int LONGEST_SHOWN = 40;

    /** Characters of what the reader of JSON says. */
    int LONGEST_REASON = 200;

    /** Who asks, as far as it said so. */
    String by();

    /** Empty where there is none that could be repeated; MQTT 5 has none. */
    String id();

    /**
     * An ask.
     *
     * @param expires as it stands; empty under MQTT 5, where the message has it
     */
    record Sound(Wanted wanted, String by, String id, String expires) implements AskText {}

    /** No ask, or one for what the point can never be. */
    record Faulty(String by, String id, String wanted, String code, String sentence) implements AskText {}

    static AskText of(Octets payload, PointDefinition point, MqttSettings.Version version) {
        Optional<String> text = payload.strictText();
        if (text.isEmpty()) {
            return malformed("", "", "an ask is UTF-8");
        }
        Map<String, @Nullable Object> members;
        try {
            members = JsonLine.parse(text.get());
        } catch (IllegalArgumentException e) {
            return malformed("", "", "an ask is one JSON object, " + example(version) + ": " + firstLine(e));
        }
        return of(members, point, version);
    }

    private static AskText of(
            Map<String, @Nullable Object> members, PointDefinition point, MqttSettings.Version version) {
        String by = line(members.get("by"), LONGEST_BY);
        String id = version == MqttSettings.Version.V5 ? "" : line(members.get("id"), LONGEST_ID);
        Optional<String> objection = objection(members, by, id, version);
        if (objection.isPresent()) {
            return malformed(by, id, objection.get());
        }
        Object value = members.get("value");
        Optional<Wanted> wanted = wanted(value, point);
        return wanted.<AskText>map(sound ->
                        new Sound(sound, by, id, members.get("expires") instanceof String expires ? expires : ""))
                .orElseGet(() -> new Faulty(
                        by,
                        id,
                        shown(value),
                        Question.TYPE.code(),
                        "'value' is " + takes(point) + ", or null to give up the slot (was " + shown(value) + ")"));
    }

    private static Optional<String> objection(
            Map<String, @Nullable Object> members, String by, String id, MqttSettings.Version version) {
        Set<String> known =
                version == MqttSettings.Version.V5 ? Set.of("value", "by") : Set.of("value", "by", "id", "expires");
        for (String name : members.keySet()) {
            if (!known.contains(name)) {
                return Optional.of(
                        "an ask has no member '" + Plain.of(name, LONGEST_SHOWN) + "': it is " + example(version));
            }
        }
        for (String name : new TreeSet<>(known)) {
            if (!members.containsKey(name)) {
                return Optional.of("an ask needs '" + name + "': it is " + example(version));
            }
        }
        if (by.isEmpty()) {
            return Optional.of("'by' says who asks, in 1 to " + LONGEST_BY + " characters");
        }
        if (version == MqttSettings.Version.V5) {
            return Optional.empty();
        }
        if (id.isEmpty()) {
            return Optional.of("'id' is a text of 1 to " + LONGEST_ID + " characters, another one for each ask");
        }
        return members.get("expires") instanceof String
                ? Optional.empty()
                : Optional.of("'expires' is a time in UTC, like 2026-11-25T08:00:30Z");
    }

    private static String example(MqttSettings.Version version) {
        return version == MqttSettings.Version.V5
                ? "{\"value\": 55, \"by\": \"who asks\"}"
                : "{\"value\": 55, \"by\": \"who asks\", \"id\": \"17\", \"expires\": \"2026-11-25T08:00:30Z\"}";
    }

    /** Empty where it is no text, or one that is empty, longer than the limit or not plain. */
    private static String line(@Nullable Object value, int longest) {
        boolean sane = value instanceof String text && text.length() <= longest && Plain.isPlain(text);
        return sane ? String.valueOf(value) : "";
    }

    private static Faulty malformed(String by, String id, String sentence) {
        return new Faulty(by, id, "", MALFORMED, sentence);
    }

    private static Optional<Wanted> wanted(@Nullable Object value, PointDefinition point) {
        if (value == null) {
            return Optional.of(new Wanted.Nothing());
        }
        if (value instanceof Boolean on) {
            return point.format().isBit()
                    ? Optional.of(number(on ? BigDecimal.ONE : BigDecimal.ZERO))
                    : Optional.empty();
        }
        if (value instanceof BigDecimal number) {
            return Optional.of(number(number));
        }
        if (value instanceof String text) {
            List<Long> states = point.states().texts().entrySet().stream()
                    .filter(state -> state.getValue().equals(text))
                    .map(Map.Entry::getKey)
                    .toList();
            // A text that stands for two states says neither.
            return states.size() == 1 ? Optional.of(number(BigDecimal.valueOf(states.get(0)))) : Optional.empty();
        }
        return Optional.empty();
    }

    private static Wanted number(BigDecimal value) {
        return new Wanted.Number(value);
    }

    private static String takes(PointDefinition point) {
        String bit = point.format().isBit() ? "true, false or " : "";
        return point.states().isEmpty()
                ? bit + "a number"
                : bit + "the number or the text of a state, "
                        + String.join(
                                ", ",
                                point.states().texts().entrySet().stream()
                                        .limit(12)
                                        .map(state -> state.getKey() + " " + state.getValue())
                                        .toList());
    }

    private static String shown(@Nullable Object value) {
        return Plain.of(JsonLine.value(value), LONGEST_SHOWN);
    }

    private static String firstLine(IllegalArgumentException e) {
        String message = String.valueOf(e.getMessage());
        int end = message.indexOf('\n');
        return Plain.of(end < 0 ? message : message.substring(0, end), LONGEST_REASON);
    }
}
