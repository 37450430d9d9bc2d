package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static burnerbridge.write.GateRig.OTHER_LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** What equal asks, asks of other slots and asks of other points come to. */
class SlotsAndAsksTest {
    private static final Decision TO_BE_WRITTEN = new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    private static final Decision RENEWED = new Decision.Admitted(Decision.Standing.RENEWED);
    private static final Decision BEHIND = new Decision.Admitted(Decision.Standing.BEHIND);
    private static final Decision GIVEN_UP = new Decision.Admitted(Decision.Standing.GIVEN_UP);

    private final GateRig rig = GateRig.ready();

    private PermitStatus load() {
        return rig.gate.statuses().get(0);
    }

    private static Question refusal(Decision decision) {
        assertThat(decision).isInstanceOf(Decision.Refused.class);
        return ((Decision.Refused) decision).question();
    }

    @Test
    void anEqualAskIsNotKeptBackByTheIntervalThatAnotherValueIs() {
        rig.ask(LOAD, "35");
        rig.work();
        assertThat(rig.ask(LOAD, "35")).isEqualTo(RENEWED);
        assertThat(refusal(rig.ask(LOAD, "35.1"))).isEqualTo(Question.INTERVAL);
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void anEqualAskWhileTheFirstWaitsRenewsIt() {
        assertThat(rig.ask(LOAD, "35")).isEqualTo(TO_BE_WRITTEN);
        assertThat(rig.ask(LOAD, "35")).isEqualTo(RENEWED);
        rig.work();
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void anEqualAskWhileTheFirstIsUnderWayRenewsIt() {
        rig.ask(LOAD, "35");
        rig.unit.beforeWrite = () -> assertThat(rig.ask(LOAD, "35")).isEqualTo(RENEWED);
        rig.work();
        rig.unit.beforeWrite = () -> {};
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void anEqualAskBehindTheWinnerRenewsItsOwnSlot() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "38", 12)).isEqualTo(BEHIND);
        assertThat(rig.ask(LOAD, "38", 12)).isEqualTo(RENEWED);
    }

    @Test
    void anEqualAskWhileTheWinnerIsHeldRenewsItAndItStaysHeld() {
        rig.oneBehindTheWinner();
        rig.giveUp(LOAD, 8);
        assertThat(load().held()).isNotEmpty();
        assertThat(rig.ask(LOAD, "38", 12)).isEqualTo(RENEWED);
        assertThat(load().held()).isNotEmpty();
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(340);
    }

    /** What it holds since, nobody knows, so that what was asked for is written again. */
    @Test
    void anEqualAskIsWrittenAgainAfterTheControllerWasAway() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.link("boiler-1", false);
        rig.gate.step(rig.clock.ticks());
        rig.link("boiler-1", true);
        rig.gate.step(rig.clock.ticks());
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 300);
        rig.poll();
        assertThat(rig.ask(LOAD, "35")).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(350);
        assertThat(rig.unit.frames).hasSize(2);
    }

    @Test
    void theSameValueInALowerSlotIsThereAlready() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "35", 7)).isEqualTo(RENEWED);
        assertThat(rig.gate.isQuiet()).isTrue();
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(load().slots()).extracting(PermitStatus.Held::slot).containsExactly(7, 8);
    }

    @Test
    void theSameValueInALowerSlotIsWrittenWhereItIsOnlyUnderWay() {
        rig.ask(LOAD, "35", 8);
        rig.unit.manner = RecordingUnit.Manner.ACCEPTS_AND_IGNORES;
        rig.writer.run();
        rig.clock.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "35", 7)).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whatComesUpAndIsThereAlreadyIsNotWrittenAgain() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "35", 12)).isEqualTo(BEHIND);
        assertThat(rig.giveUp(LOAD, 8)).isEqualTo(GIVEN_UP);
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(load().held()).isEmpty();
    }

    @Test
    void whatComesUpAfterAFailureIsWrittenThoughItWasThereBefore() {
        rig.ask(LOAD, "35", 12);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.unit.manner = RecordingUnit.Manner.REFUSES;
        rig.ask(LOAD, "36", 8);
        rig.work();
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.forward(GateRig.INTERVAL);
        rig.poll();
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.unit.frames).hasSize(3);
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void toGiveUpWhatIsBehindChangesNothingOfTheWinner() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "38", 12);
        rig.ask(LOAD, "39", 13);
        rig.ask(LOAD, "34", 8);
        rig.work();
        rig.giveUp(LOAD, 8);
        rig.giveUp(LOAD, 13);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.WRITTEN, WriteEvent.Kind.HELD);
        assertThat(load().slots()).extracting(PermitStatus.Held::slot).containsExactly(12);
    }

    @Test
    void whatIsHeldIsToldOnceForEachReason() {
        rig.oneBehindTheWinner();
        rig.events.clear();
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(5));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.HELD);
        assertThat(rig.events.get(0).sentence())
                .startsWith(
                        "slot 12 of bacnet 192.0.2.7:47808 waits: boiler-1.load-demand may be written once in 60 s");
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.register(1, 44)).isEqualTo(380);
    }

    @Test
    void anotherReasonIsToldToo() {
        rig.oneBehindTheWinner();
        rig.events.clear();
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(5));
        rig.link("boiler-1", false);
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.HELD, WriteEvent.Kind.HELD);
        assertThat(rig.events.get(1).sentence()).endsWith("waits: boiler-1 does not answer: no reply");
    }

    @Test
    void whatWasAskedForFirstIsWrittenFirst() {
        rig.ask(OTHER_LOAD, "31");
        rig.ask(ENABLE, "1");
        rig.ask(LOAD, "31");
        rig.work();
        assertThat(rig.unit.frames)
                .extracting(frame -> frame.template().unit())
                .containsExactly(new UnitId(2), new UnitId(1), new UnitId(1));
        assertThat(rig.unit.frames)
                .extracting(frame -> frame.template().range().first())
                .containsExactly(44, 16, 44);
    }

    @Test
    void silenceIsWrittenBeforeWhatWasAskedForEarlier() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.unit.frames.clear();
        rig.ask(OTHER_LOAD, "31");
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.unit.frames)
                .extracting(frame -> frame.template().unit())
                .containsExactly(new UnitId(1), new UnitId(2));
    }

    @Test
    void heartbeatsWaitForAllElse() {
        GateRig beating = new GateRig(new Kept(), GateRig.site(GateRig.permitsWithBeat()), true);
        beating.forward(GateRig.INTERVAL);
        beating.ask(LOAD, "30");
        beating.ask(ENABLE, "1");
        beating.gate.step(beating.clock.ticks());
        beating.ask(OTHER_LOAD, "31");
        beating.work();
        assertThat(beating.unit.frames)
                .extracting(frame -> frame.template().range().first())
                .containsExactly(44, 16, 44, 48);
    }

    @Test
    void nothingWaitsForALineOnWhichNothingIsPermitted() {
        rig.ask(LOAD, "35");
        Name other = new Name("tower");
        assertThat(rig.gate.readyAt(other, (template, now) -> now, rig.clock.ticks()))
                .isEmpty();
        assertThat(rig.gate.begin(other, (template, now) -> now)).isEmpty();
        assertThat(rig.gate.readyAt(GateRig.LINE, (template, now) -> now, rig.clock.ticks()))
                .isPresent();
        assertThat(rig.gate.begin(GateRig.LINE, (template, now) -> now)).isPresent();
    }

    @Test
    void theGateIsSteppedFiveTimesASecond() {
        long now = rig.clock.ticks();
        assertThat(rig.gate.step(now)).isEqualTo(now + Duration.ofMillis(200).toNanos());
    }

    @Test
    void aLeaseIsShownWithWhatIsLeftOfIt() {
        rig.ask(LOAD, "35");
        rig.clock.forward(Duration.ofMinutes(5));
        assertThat(load().slots())
                .isEqualTo(List.of(new PermitStatus.Held(
                        8,
                        new BigDecimal("35.0"),
                        GateRig.STATION,
                        OptionalLong.of(Duration.ofMinutes(10).toNanos()))));
        rig.clock.forward(Duration.ofHours(1));
        assertThat(load().slots().get(0).left()).hasValue(0);
        assertThat(load().spent()).isZero();
        rig.gate.step(rig.clock.ticks());
        assertThat(load().slots()).isEmpty();
    }
}
