package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.unit.Unit;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import tools.jackson.core.JsonGenerator;

/**
 * What became of an ask:
 * {@code {"result":"accepted","value":55,"unit":"%","sentAt":"…Z"}}.
 *
 * <p>{@code value} is what the registers held when they were read back, and never what was asked for. {@code renewed} is
 * there where they held it already and nothing was written. What is behind has the {@code winner}; what is held, refused,
 * failed or unknown has a {@code code} and a {@code sentence}. {@code id} repeats that of the ask under MQTT 3.1.1.
 *
 * @param value read back; empty but for what is accepted
 * @param winner the slot that wins and who holds it; empty but for what is behind
 * @param code empty where the result says it all
 */
public record ReplyPayload(
        Result result,
        Optional<BigDecimal> value,
        boolean renewed,
        Optional<Fate.Behind> winner,
        String code,
        String sentence) {

    /** What an ask came to. */
    public enum Result {
        /** It stands in the registers, and was read back from there. */
        ACCEPTED,
        /** It holds its slot, and another slot wins. */
        BEHIND,
        /** It holds its slot, is not written for a reason, and is when that has passed. */
        HELD,
        /** Its slot is empty now. */
        GIVEN_UP,
        /** Nothing was sent, and it holds nothing. */
        REFUSED,
        /** Nothing was sent, since something newer took its place. */
        OVERTAKEN,
        /** It was sent, and is not what the registers hold. */
        FAILED,
        /** Whether it was written is not known. */
        UNKNOWN;

        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        public static Stream<String> words() {
            return Stream.of(values()).map(Result::word);
        }
    }

    private static final String UNKNOWN_CODE = "unknown";

    public static ReplyPayload of(Fate fate, boolean renewed) {
        if (fate instanceof Fate.Written written) {
            return new ReplyPayload(Result.ACCEPTED, Optional.of(written.value()), renewed, Optional.empty(), "", "");
        }
        if (fate instanceof Fate.Behind behind) {
            return new ReplyPayload(Result.BEHIND, Optional.empty(), renewed, Optional.of(behind), "", "");
        }
        if (fate instanceof Fate.GivenUp) {
            return said(Result.GIVEN_UP, "", "");
        }
        if (fate instanceof Fate.Withheld withheld) {
            return said(
                    withheld.kept() ? Result.HELD : Result.REFUSED,
                    withheld.question().code(),
                    withheld.sentence());
        }
        if (fate instanceof Fate.Failed failed) {
            return said(
                    failed.code().equals(UNKNOWN_CODE) ? Result.UNKNOWN : Result.FAILED,
                    failed.code(),
                    failed.sentence());
        }
        return said(Result.OVERTAKEN, "", "");
    }

    public static ReplyPayload of(Decision.Refused refused) {
        return refused(refused.question().code(), refused.sentence());
    }

    public static ReplyPayload refused(String code, String sentence) {
        return said(Result.REFUSED, code, sentence);
    }

    public static ReplyPayload unknown(String sentence) {
        return said(Result.UNKNOWN, UNKNOWN_CODE, sentence);
    }

    private static ReplyPayload said(Result result, String code, String sentence) {
        return new ReplyPayload(result, Optional.empty(), false, Optional.empty(), code, sentence);
    }

    /** @param id of the ask; empty where it had none */
    public String json(PointDefinition point, String id, Stamp now) {
        return Json.object(json -> {
            text(json, "id", id);
            json.writeStringProperty("result", result.word());
            value.ifPresent(readBack -> {
                json.writeName("value");
                AskedValue.write(json, point, readBack);
                if (point.unit() != Unit.NONE) {
                    json.writeStringProperty("unit", point.unit().symbol());
                }
            });
            if (renewed) {
                json.writeBooleanProperty("renewed", true);
            }
            winner.ifPresent(behind -> {
                json.writeName("winner");
                json.writeStartObject();
                json.writeNumberProperty("slot", behind.winner());
                json.writeStringProperty("source", behind.by().text());
                json.writeEndObject();
            });
            text(json, "code", code);
            text(json, "sentence", sentence);
            json.writeStringProperty("sentAt", Json.time(now));
            if (!now.believed()) {
                json.writeStringProperty("clock", "unsure");
            }
        });
    }

    private static void text(JsonGenerator json, String name, String text) {
        if (!text.isEmpty()) {
            json.writeStringProperty(name, text);
        }
    }
}
