package burnerbridge.benchmark.transactions;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class RoundsTest {
    private final Rounds ours = new Rounds(List.of(round(2_000, 1, 2_000, 3_000), round(4_000, 5_000, 6_000)));
    private final Rounds reference = new Rounds(List.of(round(1_000, 1_000, 9_000), round(5_000, 5_000, 5_000)));

    private static Round round(long... nanos) {
        return new Round(nanos, Duration.ofNanos(7_000), Duration.ofNanos(14_000));
    }

    @Test
    void ratiosAreOfTheMediansOfRoundsThatWereSideBySide() {
        assertThat(ours.medianRatios(reference).least()).isEqualTo(1);
        assertThat(ours.medianRatios(reference).most()).isEqualTo(2);
    }

    @Test
    void everyReadCountsForTheSpreadOfAll() {
        assertThat(ours.micros().most()).isEqualTo(6);
        assertThat(ours.micros().median()).isEqualTo(3);
    }

    @Test
    void processorTimeIsSharedByAllReads() {
        assertThat(ours.threadMicros()).isEqualTo(2);
        assertThat(ours.processMicros()).isEqualTo(4);
    }
}
