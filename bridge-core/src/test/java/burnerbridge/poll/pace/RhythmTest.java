package burnerbridge.poll.pace;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RhythmTest {
    private static final long MS = 1_000_000L;
    /** Ticks overflow soon after. */
    private static final long START = new HandClock().ticks();

    private static final Duration EVERY = Duration.ofSeconds(2);

    private static Rhythm rhythm(long phase, boolean fromEachTry) {
        return new Rhythm(EVERY, Duration.ofMillis(phase), fromEachTry, START);
    }

    @Test
    void itIsDueAtOnceAndThenAtItsPhaseOfEachInterval() {
        Rhythm rhythm = rhythm(700, false);
        assertThat(rhythm.due()).isEqualTo(START);
        assertThat(rhythm.taken(START + 30 * MS)).isZero();
        assertThat(rhythm.due()).isEqualTo(START + 700 * MS);
        assertThat(rhythm.taken(START + 700 * MS)).isZero();
        assertThat(rhythm.due()).isEqualTo(START + 2_700 * MS);
        assertThat(rhythm.taken(START + 4_600 * MS)).isZero();
        assertThat(rhythm.due()).isEqualTo(START + 4_700 * MS);
    }

    @ParameterizedTest
    @CsvSource({"2699, 0, 2700", "2700, 1, 4700", "4699, 1, 4700", "6700, 3, 8700"})
    void turnsThatAreMissedAreLeftOutAndThePhaseStays(long late, long leftOut, long next) {
        Rhythm rhythm = rhythm(700, false);
        rhythm.taken(START);
        assertThat(rhythm.taken(START + late * MS)).isEqualTo(leftOut);
        assertThat(rhythm.due()).isEqualTo(START + next * MS);
    }

    @Test
    void whatIsDueAtAnotherMomentLeavesNoTurnOut() {
        Rhythm rhythm = rhythm(700, false);
        rhythm.taken(START);
        rhythm.dueAt(START + 10_000 * MS);
        assertThat(rhythm.taken(START + 10_001 * MS)).isZero();
        assertThat(rhythm.due()).isEqualTo(START + 10_700 * MS);
    }

    @Test
    void aWholeIntervalCanFollowEachTry() {
        Rhythm rhythm = rhythm(700, true);
        rhythm.taken(START + 100 * MS);
        assertThat(rhythm.due()).isEqualTo(START + 2_800 * MS);
        rhythm.taken(START + 3_500 * MS);
        assertThat(rhythm.due()).isEqualTo(START + 5_500 * MS);
    }

    @Test
    void whatIsWantedSeldomCountsAsLateAfterTenSecondsAtMost() {
        assertThat(rhythm(0, false).deadline()).isEqualTo(START + 1_000 * MS);
        Rhythm hourly = new Rhythm(Duration.ofHours(1), Duration.ZERO, false, START);
        assertThat(hourly.deadline()).isEqualTo(START + 10_000 * MS);
    }

    @ParameterizedTest
    @CsvSource({"1, 1000", "8, 125", "1000, 1", "7, 1"})
    void phasesLeaveNoLargeGap(int reads, int lines) {
        List<Double> places = new ArrayList<>();
        for (int line = 0; line < lines; line++) {
            for (int rank = 0; rank < reads; rank++) {
                Duration phase = Phases.of(EVERY, rank, reads, line);
                assertThat(phase).isBetween(Duration.ZERO, EVERY.minusNanos(1));
                places.add((double) phase.toNanos() / EVERY.toNanos());
            }
        }
        Collections.sort(places);
        double widest = places.get(0) + 1 - places.get(places.size() - 1);
        for (int i = 1; i < places.size(); i++) {
            widest = Math.max(widest, places.get(i) - places.get(i - 1));
        }
        assertThat(widest * places.size()).isLessThan(3);
    }
}
