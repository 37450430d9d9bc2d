package burnerbridge.mqtt.topic;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.TestPlant;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ValidityTest {
    private static final Stamp ASKED = new Stamp(Long.MAX_VALUE - 10, Instant.EPOCH, true);
    private static final long MILLISECOND = 1_000_000L;

    @ParameterizedTest(name = "{0} s allowed, {1} ms old: {2} s")
    @CsvSource({
        "10, 0, 10",
        "10, 1, 9",
        "10, 999, 9",
        "10, 1000, 9",
        "10, 1001, 8",
        "10, 8000, 2",
        "10, 8999, 1",
        "10, 9000, 1",
        "10, 9001, 0",
        "10, 9999, 0",
        "10, 10000, 0",
        "10, 10001, 0",
        "10800, 3600000, 7200",
    })
    void aReadingHoldsUntilItTurnsStaleInWholeSecondsRoundedDown(int allowed, int ageMillis, int expected) {
        assertThat(seconds(TestPlant.real(1, ASKED), allowed, ageMillis)).isEqualTo(expected);
        assertThat(seconds(
                        Reading.bad(Reason.NO_SENSOR, ASKED, Registers.of(0), Reading.notReadYet()),
                        allowed,
                        ageMillis))
                .isEqualTo(expected);
    }

    @Test
    void aReadingOneNanosecondFromStaleIsNotSentAnyMore() {
        assertThat(Validity.seconds(
                        TestPlant.real(1, ASKED), Duration.ofSeconds(10), ASKED.ticks() + 10_000 * MILLISECOND - 1))
                .isZero();
    }

    @ParameterizedTest
    @CsvSource({"10, 60", "60, 60", "61, 61", "10800, 3600"})
    void aReadingThatCannotGrowOlderHoldsForAMinuteToAnHour(int allowed, int expected) {
        Reading stale = TestPlant.real(1, ASKED).staled(Reason.NO_REPLY);

        assertThat(seconds(stale, allowed, 1_000_000)).isEqualTo(expected);
        assertThat(seconds(Reading.notReadYet(), allowed, 0)).isEqualTo(expected);
    }

    private static long seconds(Reading reading, int allowed, int ageMillis) {
        return Validity.seconds(reading, Duration.ofSeconds(allowed), ASKED.ticks() + ageMillis * MILLISECOND);
    }
}
