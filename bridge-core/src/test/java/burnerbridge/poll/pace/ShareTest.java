package burnerbridge.poll.pace;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.time.Duration;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShareTest {
    private static final long SECOND = 1_000_000_000L;
    /** Ticks overflow soon after. */
    private static final long START = new HandClock().ticks();

    @Test
    void whatIsSavedUpIsThereAtTheStartAndThenTheShareComesIn() {
        Share share = new Share(50, Duration.ofMinutes(5), START);
        for (int i = 0; i < 6; i++) {
            assertThat(share.enoughAt(Duration.ofSeconds(1), START)).isEqualTo(START);
            share.spend(SECOND, START);
        }
        assertThat(share.enoughAt(Duration.ofSeconds(1), START)).isEqualTo(START + 50 * SECOND);
        assertThat(share.enoughAt(Duration.ofSeconds(1), START + 20 * SECOND)).isEqualTo(START + 50 * SECOND);
    }

    @Test
    void whatTakesLongerThanCanBeSavedUpIsStillMade() {
        Share share = new Share(50, Duration.ofMinutes(5), START);
        assertThat(share.enoughAt(Duration.ofMinutes(1), START)).isEqualTo(START);
        share.spend(60 * SECOND, START);
        assertThat(share.enoughAt(Duration.ofMinutes(1), START)).isEqualTo(START + 50 * 60 * SECOND);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 10, 50})
    void overAnyTimeNoMoreThanTheShareIsSpentAndWhatWasSaved(int oneIn) {
        for (int seed = 0; seed < 50; seed++) {
            Random random = new Random(seed);
            Share share = new Share(oneIn, Duration.ofMinutes(1), START);
            long now = START;
            long spent = 0;
            for (int i = 0; i < 1_000; i++) {
                long wanted = 1 + random.nextInt(2_000_000_000);
                long from = share.enoughAt(Duration.ofNanos(wanted), now);
                assertThat(from - now).as("seed %d", seed).isGreaterThanOrEqualTo(0);
                now = from + wanted;
                share.spend(wanted, now);
                spent += wanted;
                now += random.nextInt(1_000_000_000);
                long most = (now - START) / oneIn + 60 * SECOND / oneIn + wanted;
                assertThat(spent).as("seed %d", seed).isLessThanOrEqualTo(most);
            }
        }
    }
}
