package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class DoubtsTest {
    private static final ReadRequest ASKED = new ReadRequest(new UnitId(3), RegisterTable.HOLDING_REGISTER, 10, 2);

    private final HandClock clock = new HandClock();
    private final Doubts doubts = new Doubts(Duration.ofSeconds(2));

    private int about(int unit, RegisterTable table, int first) {
        return doubts.about(new ReadRequest(new UnitId(unit), table, first, 1), clock.ticks());
    }

    private void silent() {
        doubts.note(ASKED, new Outcome.Silent(clock.now()));
    }

    @Test
    void everyUnansweredRequestIsADoubtAboutLaterOnesOfItsUnitAndFunction() {
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 99)).isZero();
        silent();
        doubts.note(ASKED, new Outcome.Broken(Fault.CHECKSUM, "", clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 99)).isEqualTo(2);
        assertThat(about(4, RegisterTable.HOLDING_REGISTER, 10)).isZero();
        assertThat(about(3, RegisterTable.INPUT_REGISTER, 10)).isZero();
    }

    @Test
    void aReplyOfTheUnitSettlesThem() {
        silent();
        silent();
        doubts.note(
                new ReadRequest(new UnitId(4), RegisterTable.COIL, 0, 1),
                new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isEqualTo(2);
        doubts.note(
                new ReadRequest(new UnitId(3), RegisterTable.COIL, 0, 1),
                new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }

    @Test
    void aRequestThatNeverLeftIsNoDoubt() {
        doubts.note(ASKED, new Outcome.NotConnected("no port"));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }

    @Test
    void aReplyIsNotThoughtPossibleForEver() {
        silent();
        clock.forward(Duration.ofMillis(1_500));
        silent();
        clock.forward(Duration.ofMillis(500));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isEqualTo(1);
        clock.forward(Duration.ofMillis(1_500));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
    }

    private static ReadRequest onTerms(int unit, boolean anyReplyUnit, boolean once) {
        return new ReadRequest(
                new UnitId(unit),
                RegisterTable.HOLDING_REGISTER,
                0,
                1,
                new ReadTerms(anyReplyUnit, once, Duration.ZERO));
    }

    private long clearIn(ReadRequest request) {
        return Duration.ofNanos(doubts.clearAt(request, clock.ticks()) - clock.ticks())
                .toMillis();
    }

    @Test
    void askingAgainHelpsAgainstRepliesOfTheSameUnitUnlessItIsAskedOnce() {
        silent();
        assertThat(clearIn(onTerms(3, false, false))).isZero();
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(4, false, true))).isZero();
        clock.forward(Duration.ofMillis(500));
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(1_500);
        clock.forward(Duration.ofMillis(1_500));
        assertThat(clearIn(onTerms(3, false, true))).isZero();
    }

    /** Units answer in no order among each other, so that asking again proves nothing. */
    @Test
    void whereAnyUnitMayReplyALateReplyOfEachIsWaitedFor() {
        silent();
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(3, true, false))).isZero();
        assertThat(doubts.about(onTerms(3, true, false), clock.ticks())).isEqualTo(1);
        assertThat(doubts.about(onTerms(4, true, false), clock.ticks())).isZero();
        doubts.note(onTerms(4, true, false), new Outcome.Answered(Registers.of(1), clock.now()));
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
    }

    @Test
    void aLateReplyThatMayCarryAnyUnitIsInTheWayOfAll() {
        doubts.note(onTerms(3, true, false), new Outcome.Silent(clock.now()));
        assertThat(clearIn(onTerms(4, false, false))).isEqualTo(2_000);
        assertThat(clearIn(new ReadRequest(new UnitId(4), RegisterTable.COIL, 0, 1)))
                .isZero();
    }

    /** Of a question that was asked twice and answered once, one reply may still be under way. */
    @Test
    void behindRepetitionsTheUnitIsLeftAloneByThatFunction() {
        doubts.noteRepeats(ASKED, 1, clock.ticks());
        doubts.note(ASKED, new Outcome.Answered(Registers.of(1, 2), clock.now()));
        assertThat(about(3, RegisterTable.HOLDING_REGISTER, 10)).isZero();
        assertThat(clearIn(onTerms(3, false, true))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(3, false, false))).isEqualTo(2_000);
        assertThat(clearIn(onTerms(4, false, false))).isZero();
        assertThat(clearIn(onTerms(4, true, false))).isEqualTo(2_000);
        assertThat(clearIn(new ReadRequest(new UnitId(3), RegisterTable.COIL, 0, 1)))
                .isZero();
    }
}
