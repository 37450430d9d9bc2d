package burnerbridge.line.wire;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.frame.RtuFraming;
import burnerbridge.model.HandClock;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SilenceTest {
    private final HandClock clock = new HandClock();
    private final List<Long> pauses = new ArrayList<>();
    private final Silence silence = new Silence(Duration.ofNanos(2_000_000), clock, this::pause);

    private void pause(long nanos) {
        pauses.add(nanos);
        clock.forward(Duration.ofNanos(nanos));
    }

    @Test
    void onlyWhatIsLeftOfTheSilenceIsWaitedFor() {
        silence.begins();
        clock.forward(Duration.ofNanos(500_000));
        silence.await();
        assertThat(pauses).containsExactly(1_500_000L);
    }

    @Test
    void aLineThatWasSilentForLongEnoughIsNotWaitedFor() {
        silence.begins();
        clock.forward(Duration.ofSeconds(3));
        silence.await();
        assertThat(pauses).isEmpty();
    }

    @Test
    void aPauseThatEndsTooSoonIsPausedAgain() {
        Silence restless = new Silence(Duration.ofNanos(2_000_000), clock, nanos -> pause(nanos / 2 + 1));
        restless.await();
        assertThat(pauses).hasSizeGreaterThan(2);
        assertThat(pauses.stream().mapToLong(p -> p).sum()).isBetween(2_000_000L, 2_001_000L);
    }

    /** Worked by hand: bits / baud × 3.5, and 1.75 ms above 19,200 baud. */
    @ParameterizedTest
    @CsvSource({
        "1200, 11, 32083333",
        "9600, 11, 4010416",
        "9600, 10, 3645833",
        "19200, 11, 2005208",
        "38400, 11, 1750000",
        "115200, 11, 1750000"
    })
    void theSilenceIsThreeAndAHalfCharacters(int baud, int bits, long nanos) {
        assertThat(new WireTime(baud, bits).silence()).isEqualTo(Duration.ofNanos(nanos));
    }

    @Test
    void aRequestAndItsReplyTakeTheTimeOfTheirCharacters() {
        // 8 bytes out and 5 + 2 × 100 back, 11 bits each, at 9600 baud.
        RtuFraming framing = new RtuFraming(new WireTime(9600, 11), silence, false);
        ReadRequest hundred = new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 0, 100);
        assertThat(framing.wireTime(hundred)).isBetween(Duration.ofMillis(244), Duration.ofMillis(245));
    }
}
