package burnerbridge.poll.pace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class UsageTest {
    private static final long MILLI = 1_000_000;
    private static final long SECOND = 1_000 * MILLI;
    /** Just before ticks overflow. */
    private static final long START = Long.MAX_VALUE - 5 * SECOND;

    private final Usage usage = new Usage(START);

    private double share(long at) {
        return usage.share(START + at).orElseThrow();
    }

    @Test
    void atTheStartNothingIsKnown() {
        assertThat(usage.share(START)).isEmpty();
        assertThat(share(SECOND)).isZero();
    }

    @Test
    void itIsTheShareOfTheLastMinute() {
        for (long at = 0; at < 300 * SECOND; at += SECOND) {
            usage.add(at < 150 * SECOND ? 800 * MILLI : 200 * MILLI, START + at);
            double share = share(at + SECOND);
            if (at < 149 * SECOND) {
                assertThat(share).isCloseTo(0.8, within(1e-9));
            } else if (at > 220 * SECOND) {
                assertThat(share).isCloseTo(0.2, within(1e-9));
            } else {
                assertThat(share).isBetween(0.2, 0.8);
            }
        }
    }

    @Test
    void whatIsLongAgoIsForgotten() {
        usage.add(5 * SECOND, START + 5 * SECOND);
        assertThat(share(10 * SECOND)).isCloseTo(0.5, within(1e-9));
        assertThat(share(50 * SECOND)).isCloseTo(0.1, within(1e-9));
        assertThat(share(3_600 * SECOND + 1)).isZero();
    }
}
