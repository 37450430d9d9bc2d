package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.UnitId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class LineCountersTest {
    private static final UnitId ONE = new UnitId(1);
    private static final UnitId TWO = new UnitId(2);

    private final Stamp now = new HandClock().now();
    private final LineCounters counters = new LineCounters();

    @Test
    void aLineHasTheSumOfItsUnits() {
        counters.opened();
        counters.foundUnasked();
        counters.count(ONE, new Outcome.Answered(Registers.of(7), now));
        counters.count(ONE, new Outcome.Broken(Fault.CHECKSUM, "", now));
        counters.count(TWO, new Outcome.Broken(Fault.CHECKSUM, "", now));
        counters.count(TWO, new Outcome.Broken(Fault.ECHO, "", now));
        counters.count(TWO, new Outcome.Refused(2, now));
        counters.count(TWO, new Outcome.Silent(now));
        counters.count(TWO, new Outcome.NotConnected("unplugged"));
        assertThat(counters.ofUnit(ONE)).isEqualTo(new LineCounts(1, 0, 0, Map.of(Fault.CHECKSUM, 1L), 1, 1));
        assertThat(counters.ofUnit(TWO))
                .isEqualTo(new LineCounts(0, 1, 1, Map.of(Fault.CHECKSUM, 1L, Fault.ECHO, 1L), 1, 1));
        LineCounts line = counters.ofLine();
        assertThat(line).isEqualTo(new LineCounts(1, 1, 1, Map.of(Fault.CHECKSUM, 2L, Fault.ECHO, 1L), 1, 1));
        assertThat(line.requests()).isEqualTo(6);
        assertThat(line.broken(Fault.UNIT)).isZero();
    }

    @Test
    void aUnitThatWasNeverAskedHasNone() {
        assertThat(counters.ofUnit(ONE).requests()).isZero();
    }

    @Test
    void noCountIsLostBetweenThreads() throws InterruptedException {
        List<Thread> threads = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            Thread thread = new Thread(() -> {
                for (int k = 0; k < 10_000; k++) {
                    counters.count(ONE, new Outcome.Broken(Fault.values()[k % 8], "", now));
                }
            });
            thread.start();
            threads.add(thread);
        }
        for (Thread thread : threads) {
            thread.join();
        }
        assertThat(counters.ofLine().requests()).isEqualTo(40_000);
    }
}
