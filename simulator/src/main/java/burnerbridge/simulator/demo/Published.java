package burnerbridge.simulator.demo;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * What one message told of a point.
 *
 * @param value as people read it: the text of a state, {@code on} or {@code off} of a bit; empty for none
 * @param lastGood the value before it was lost, where the message tells it; else empty
 * @param readAt when its registers were asked for
 */
record Published(String value, String lastGood, String unit, String quality, Optional<Instant> readAt) {
    private static final JsonMapper JSON = new JsonMapper();

    static Published parse(byte[] payload) {
        try {
            JsonNode node = JSON.readTree(payload);
            return new Published(
                    text(node.path("value")),
                    text(node.path("lastGood").path("value")),
                    node.path("unit").asString(""),
                    node.path("quality").asString("?"),
                    instant(node.path("readAt").asString("")));
        } catch (JacksonException e) {
            return new Published("", "", "", "no JSON", Optional.empty());
        }
    }

    boolean isGood() {
        return quality.equals("good");
    }

    /** How long ago its registers were asked for. */
    Optional<Duration> age(Instant now) {
        return readAt.map(at -> Duration.between(at, now));
    }

    private static String text(JsonNode value) {
        if (value.isObject()) {
            return value.path("text").asString(value.path("number").asString(""));
        }
        if (value.isBoolean()) {
            return value.asBoolean() ? "on" : "off";
        }
        return value.asString("");
    }

    private static Optional<Instant> instant(String text) {
        try {
            return text.isEmpty() ? Optional.empty() : Optional.of(Instant.parse(text));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
