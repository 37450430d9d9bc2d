package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.frame.Overheard;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.RegisterTable;
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

    private static ReadRequest read(UnitId unit, int count) {
        return new ReadRequest(unit, RegisterTable.HOLDING_REGISTER, 0, count);
    }

    private Outcome.Broken broken(Fault fault) {
        return new Outcome.Broken(fault, "", now);
    }

    @Test
    void aLineHasTheSumOfItsUnits() {
        counters.opened();
        counters.foundUnasked();
        counters.count(read(ONE, 1), new Outcome.Answered(Registers.of(7), now));
        counters.count(read(ONE, 1), broken(Fault.CHECKSUM));
        counters.count(read(TWO, 1), broken(Fault.CHECKSUM));
        counters.count(read(TWO, 1), broken(Fault.ECHO));
        counters.count(read(TWO, 1), new Outcome.Refused(2, now));
        counters.count(read(TWO, 1), new Outcome.Silent(now));
        counters.count(read(TWO, 1), new Outcome.NotConnected("unplugged"));
        LineCounts one = counters.ofUnit(ONE);
        assertThat(one.answered()).isEqualTo(1);
        assertThat(one.broken()).isEqualTo(Map.of(Fault.CHECKSUM, 1L));
        LineCounts two = counters.ofUnit(TWO);
        assertThat(two.refused()).isEqualTo(1);
        assertThat(two.silent()).isEqualTo(1);
        assertThat(two.broken()).isEqualTo(Map.of(Fault.CHECKSUM, 1L, Fault.ECHO, 1L));
        LineCounts line = counters.ofLine();
        assertThat(line)
                .isEqualTo(new LineCounts(
                        1,
                        1,
                        1,
                        Map.of(Fault.CHECKSUM, 2L, Fault.ECHO, 1L),
                        Map.of(),
                        new ReplyShare(1, 2),
                        ReplyShare.NONE,
                        1,
                        1));
        assertThat(line.requests()).isEqualTo(6);
        assertThat(line.broken(Fault.UNIT)).isZero();
        assertThat(counters.ofUnits()).containsOnlyKeys(ONE, TWO);
    }

    /** 5 bytes and 2 a register: 5 registers are 15 bytes, 6 are 17, 13 are 31, 14 are 33. */
    @Test
    void repliesAreCountedByTheirLengthAndChecksum() {
        for (int registers : new int[] {5, 6, 13, 14}) {
            counters.count(read(ONE, registers), new Outcome.Answered(Registers.of(7), now));
            counters.count(read(ONE, registers), broken(Fault.CHECKSUM));
            counters.count(read(ONE, registers), broken(Fault.CHECKSUM));
            counters.count(read(ONE, registers), broken(Fault.FRAMING));
            counters.count(read(ONE, registers), new Outcome.Refused(2, now));
        }
        assertThat(counters.ofLine().shortReplies()).isEqualTo(new ReplyShare(1, 2));
        assertThat(counters.ofUnit(ONE).longReplies()).isEqualTo(new ReplyShare(1, 2));
    }

    @Test
    void whatIsHeardBesidesIsOfItsUnitOrOfTheLineAlone() {
        counters.heard(new Overheard(Heard.REQUEST, TWO));
        counters.heard(new Overheard(Heard.REQUEST, TWO));
        counters.heard(new Overheard(Heard.NOISE, null));
        assertThat(counters.ofUnit(TWO).heard()).isEqualTo(Map.of(Heard.REQUEST, 2L));
        assertThat(counters.ofLine().heard()).isEqualTo(Map.of(Heard.REQUEST, 2L, Heard.NOISE, 1L));
        assertThat(counters.ofLine().requests()).isZero();
    }

    @Test
    void theChangeSinceAnEarlierCountLeavesOutWhatStayed() {
        counters.count(read(ONE, 1), broken(Fault.ECHO));
        counters.heard(new Overheard(Heard.REQUEST, ONE));
        LineCounts before = counters.ofLine();
        counters.count(read(ONE, 1), broken(Fault.CHECKSUM));
        counters.opened();
        assertThat(counters.ofLine().since(before))
                .isEqualTo(new LineCounts(
                        0, 0, 0, Map.of(Fault.CHECKSUM, 1L), Map.of(), new ReplyShare(0, 1), ReplyShare.NONE, 1, 0));
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
                    counters.count(read(ONE, 1), broken(Fault.values()[k % 8]));
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

    /** By codes 10 and 11 a gateway speaks, and not the unit. */
    @Test
    void theRepliesOfAUnitItselfAreItsAnswersAndItsOwnRefusals() {
        counters.count(read(ONE, 1), new Outcome.Answered(Registers.of(7), now));
        counters.count(read(ONE, 1), new Outcome.Silent(now));
        counters.count(read(ONE, 1), broken(Fault.CHECKSUM));
        counters.count(read(TWO, 1), new Outcome.Answered(Registers.of(7), now));
        assertThat(counters.replies(ONE)).isEqualTo(1);
        for (int code : new int[] {1, 2, 4, 6, 10, 11}) {
            counters.count(read(ONE, 1), new Outcome.Refused(code, now));
        }
        assertThat(counters.replies(ONE)).isEqualTo(5);
        assertThat(counters.replies(new UnitId(3))).isZero();
    }
}
