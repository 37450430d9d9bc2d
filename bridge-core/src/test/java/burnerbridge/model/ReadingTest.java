package burnerbridge.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ReadingTest {
    private final Stamp askedAt = new HandClock().now();
    private final Reading good = Reading.good(IntegerValue.of(17), askedAt, Registers.of(17));

    /** The quality table, row by row. */
    @ParameterizedTest
    @CsvSource({
        "NONE, GOOD", "UNKNOWN_STATE, UNCERTAIN", "NOT_APPLICABLE, UNCERTAIN", "NO_REPLY, STALE", "LINE_DOWN, STALE",
        "NOT_READ_YET, BAD", "REFUSED, BAD", "NO_SENSOR, BAD", "OVER_RANGE, BAD", "UNDER_RANGE, BAD",
        "NOT_A_NUMBER, BAD", "UNREADABLE, BAD"
    })
    void everyReasonHasItsQuality(Reason reason, Quality quality) {
        assertThat(reason.quality()).isEqualTo(quality);
    }

    @Test
    void aReadingThatIsNotGoodKeepsTheLastGoodValue() {
        Reading refused = Reading.refused(2, askedAt, good);
        Reading bad = Reading.bad(Reason.NOT_A_NUMBER, askedAt, Registers.of(0x7FC0, 0), refused);
        assertThat(bad.value()).isNull();
        assertThat(bad.newestGood()).contains(new Reading.Good(IntegerValue.of(17), askedAt));
        assertThat(bad.staled(Reason.NO_REPLY).newestGood()).isEqualTo(bad.newestGood());
    }

    @Test
    void aReadingThatWasNeverGoodIsNotReadYetOnceItIsTooOld() {
        Reading refused = Reading.refused(2, askedAt, Reading.notReadYet());
        assertThat(refused.staled(Reason.LINE_DOWN).reason()).isEqualTo(Reason.NOT_READ_YET);
    }

    @ParameterizedTest
    @EnumSource(
            value = Reason.class,
            names = {"NO_REPLY", "REFUSED", "OVER_RANGE", "NOT_A_NUMBER"})
    void aReadingThatIsStaleOrBadCannotHoldAValue(Reason reason) {
        assertThatThrownBy(() -> new Reading(IntegerValue.of(1), reason, askedAt, null, 0, null))
                .hasMessageContaining("has no value");
    }
}
