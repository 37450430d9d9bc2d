package burnerbridge.simulator.demo.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PublishedTest {

    @Test
    void aGoodNumberIsReadWithItsUnitAndAge() {
        Published message = parse("""
                {"value": 42.5, "unit": "%", "quality": "good", "readAt": "2026-11-25T08:00:00.250Z",
                 "sentAt": "2026-11-25T08:00:00.310Z", "validFor": 30, "sequence": 118}
                """);

        assertThat(message.value()).isEqualTo("42.5");
        assertThat(message.unit()).isEqualTo("%");
        assertThat(message.isGood()).isTrue();
        assertThat(message.age(Instant.parse("2026-11-25T08:00:01.750Z"))).hasValue(Duration.ofMillis(1500));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "{\"number\": 12, \"text\": \"pre-purge\"}; pre-purge",
                "{\"number\": 99, \"text\": null}; 99",
                "true; on",
                "false; off",
                "\"9007199254740993\"; 9007199254740993",
                "-4.0; -4.0",
                "null; ''",
            })
    void everyKindOfValueIsShownAsText(String json, String shown) {
        assertThat(parse("{\"value\": " + json + ", \"quality\": \"good\"}").value())
                .isEqualTo(shown);
    }

    @Test
    void aLostValueKeepsItsLastGoodOne() {
        Published message = parse("""
                {"value": null, "quality": "stale", "reason": "no-reply",
                 "lastGood": {"value": 78.2, "readAt": "2026-11-25T08:00:00Z"}}
                """);

        assertThat(message.value()).isEmpty();
        assertThat(message.lastGood()).isEqualTo("78.2");
        assertThat(message.reason()).isEqualTo("no-reply");
        assertThat(message.isGood()).isFalse();
    }

    @Test
    void aMessageWithoutAQualityIsNoPoints() {
        assertThat(parse("{\"points\": []}").isPoint()).isFalse();
        assertThat(parse("{\"value\": 1, \"quality\": \"good\"}").isPoint()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "{", "up", "[1"})
    void whatIsNoJsonIsNotGood(String payload) {
        assertThat(parse(payload).isGood()).isFalse();
    }

    @Test
    void aTimeThatIsNoneGivesNoAge() {
        assertThat(parse("{\"value\": 1, \"readAt\": \"yesterday\"}").age(Instant.EPOCH))
                .isEmpty();
    }

    private static Published parse(String json) {
        return Published.parse(json.getBytes(StandardCharsets.UTF_8));
    }
}
