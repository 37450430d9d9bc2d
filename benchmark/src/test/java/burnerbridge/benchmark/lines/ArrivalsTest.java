package burnerbridge.benchmark.lines;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ArrivalsTest {
    private static final long MILLI = 1_000_000;

    private final Arrivals arrivals = new Arrivals(new Load(2, 2, 2));

    @Test
    void isCompleteWhenEveryReadOfEveryLineCame() {
        arrivals.note(0, 0, 1);
        arrivals.note(0, 2, 2);
        arrivals.note(1, 0, 3);
        arrivals.note(1, 0, 4);
        assertThat(arrivals.isComplete()).isFalse();
        arrivals.note(1, 2, 5);
        assertThat(arrivals.isComplete()).isTrue();
    }

    @Test
    void gapsAreBetweenReadsOfTheSameRegistersOfTheSameLine() {
        allAt(0);
        arrivals.watchFrom(0);
        allAt(1000 * MILLI);
        arrivals.note(0, 0, 2000 * MILLI);
        arrivals.note(0, 2, 2050 * MILLI);
        arrivals.note(1, 0, 2060 * MILLI);
        arrivals.note(1, 2, 2200 * MILLI);
        assertThat(arrivals.seenUntil(2200 * MILLI)).isEqualTo(new Arrivals.Seen(8, 1, 1200 * MILLI));
    }

    @Test
    void aReadThatNeverComesIsAGap() {
        allAt(0);
        arrivals.watchFrom(0);
        arrivals.note(0, 0, 900 * MILLI);
        assertThat(arrivals.seenUntil(5000 * MILLI).longestGap()).isEqualTo(5000 * MILLI);
    }

    @Test
    void whatWasBeforeIsForgotten() {
        allAt(0);
        allAt(9000 * MILLI);
        arrivals.watchFrom(9000 * MILLI);
        assertThat(arrivals.seenUntil(9000 * MILLI)).isEqualTo(new Arrivals.Seen(0, 0, 0));
    }

    private void allAt(long now) {
        for (int line = 0; line < 2; line++) {
            arrivals.note(line, 0, now);
            arrivals.note(line, 2, now);
        }
    }
}
