package burnerbridge.simulator.demo.feed;

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
 * @param reason why it is not good; empty where it is
 * @param readAt when its registers were asked for
 */
public record Published(
        String value, String lastGood, String unit, String quality, String reason, Optional<Instant> readAt) {
    private static final String NO_QUALITY = "?";
    private static final JsonMapper JSON = new JsonMapper();

    /** What a payload says. */
    public static Published parse(byte[] payload) {
        try {
            JsonNode node = JSON.readTree(payload);
            return new Published(
                    text(node.path("value")),
                    text(node.path("lastGood").path("value")),
                    node.path("unit").asString(""),
                    node.path("quality").asString(NO_QUALITY),
                    node.path("reason").asString(""),
                    instant(node.path("readAt").asString("")));
        } catch (JacksonException e) {
            return new Published("", "", "", "no JSON", "", Optional.empty());
        }
    }

    /** What a link topic tells: up, down or unknown; empty where it is not one's message. */
    static String linkState(byte[] payload) {
        try {
            return JSON.readTree(payload).path("state").asString("");
        } catch (JacksonException e) {
            return "";
        }
    }

    /** Whether it is the message of a point. */
    boolean isPoint() {
        return !quality.equals(NO_QUALITY);
    }

    public boolean isGood() {
        return quality.equals("good");
    }

    /** How long ago its registers were asked for. */
    public Optional<Duration> age(Instant now) {
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
