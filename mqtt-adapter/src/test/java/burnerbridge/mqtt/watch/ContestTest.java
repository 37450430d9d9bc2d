package burnerbridge.mqtt.watch;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import java.time.Duration;
import org.junit.jupiter.api.Test;

final class ContestTest {
    private final HandClock clock = new HandClock();
    private final Contest contest = new Contest();

    private boolean silently(Duration held) {
        return contest.ended(false, true, held.toNanos(), clock.now());
    }

    private boolean taken() {
        return contest.ended(true, false, 1, clock.now());
    }

    private long pause() {
        return Duration.ofNanos(contest.nextPause()).toSeconds();
    }

    @Test
    void whereTheBrokerSaysSoOnceIsEnough() {
        Stamp first = clock.now();
        assertThat(taken()).isTrue();
        clock.forward(Duration.ofMinutes(1));
        assertThat(taken()).isTrue();
        assertThat(contest.since()).hasValue(first);
        assertThat(contest.times()).isEqualTo(2);
        assertThat(contest.isSaid()).isTrue();
    }

    @Test
    void whereItSaysNothingThreeInARowThatDoNotHoldLookLikeIt() {
        assertThat(silently(Duration.ofSeconds(1))).isFalse();
        assertThat(silently(Duration.ofSeconds(1))).isFalse();
        assertThat(silently(Contest.OVER_AFTER)).isFalse(); // that one held
        assertThat(silently(Duration.ofMinutes(2))).isFalse();
        assertThat(silently(Duration.ofSeconds(1))).isFalse();
        assertThat(silently(Duration.ofSeconds(1))).isTrue();
        assertThat(contest.times()).isEqualTo(3);
        assertThat(contest.isSaid()).isFalse();
    }

    @Test
    void whatEndsForAReasonIsNobodysDoing() {
        for (int i = 0; i < 10; i++) {
            assertThat(contest.ended(false, false, 1, clock.now())).isFalse();
        }
        assertThat(contest.since()).isEmpty();
    }

    @Test
    void thePausesGrowWhileItGoesOnAlsoWhereTheOtherPausesToo() {
        taken();
        assertThat(pause()).isEqualTo(30);
        // The other has paused for as long as we did.
        assertThat(silently(Duration.ofSeconds(45))).isTrue();
        assertThat(pause()).isEqualTo(60);
        assertThat(silently(Duration.ofMinutes(2))).isTrue();
        assertThat(pause()).isEqualTo(120);
        taken();
        assertThat(pause()).isEqualTo(120);
    }

    @Test
    void aConnectionThatOutlastsEveryPauseOfTheOthersEndsIt() {
        taken();
        pause();
        assertThat(contest.isOverBy(Contest.OVER_AFTER.toNanos() - 1)).isFalse();
        assertThat(contest.isOverBy(Contest.OVER_AFTER.toNanos())).isTrue();
        assertThat(contest.isOverBy(Contest.OVER_AFTER.toNanos())).isFalse();
        assertThat(contest.since()).isEmpty();
        assertThat(silently(Duration.ofSeconds(1))).isFalse();
        taken();
        assertThat(pause()).isEqualTo(30);
        assertThat(contest.times()).isEqualTo(1);
    }
}
