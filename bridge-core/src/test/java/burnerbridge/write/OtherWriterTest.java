package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static burnerbridge.write.GateRig.OTHER_LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import burnerbridge.write.ask.Decision;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A register that changes though nobody here wrote it, and what explains such a change. */
class OtherWriterTest {
    private static final Duration WATCHDOG = Duration.ofSeconds(30);

    private final GateRig rig = GateRig.ready();

    private static SitePoint point(GateRig of, PointId id) {
        return of.site.points().stream()
                .filter(one -> one.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static void written(GateRig of) {
        of.ask(LOAD, "35");
        of.work();
        of.clock.forward(Duration.ofSeconds(1));
        of.poll();
        of.events.clear();
    }

    private static void somebodyWrites(GateRig of, int word) {
        of.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, word);
        of.poll();
    }

    @Test
    void itIsToldWithBothValuesAndNothingStandsAnyMore() {
        written(rig);
        somebodyWrites(rig, 700);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.ASLEEP);
        assertThat(rig.events.get(0).sentence())
                .startsWith("holding-register 45 (wire 44) was 015E and is 02BC, which this bridge did not write");
        PermitStatus status = rig.gate.statuses().get(0);
        assertThat(status.asleep()).isEqualTo(rig.events.get(0).sentence());
        assertThat(status.slots()).isEmpty();
        rig.gate.step(rig.clock.ticks());
        assertThat(rig.keeping.isStanding(LOAD)).isFalse();
        assertThat(rig.keeping.asleep(LOAD)).contains(status.asleep());
    }

    @Test
    void whileItSleepsNothingMoreIsTold() {
        written(rig);
        somebodyWrites(rig, 700);
        somebodyWrites(rig, 710);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.ASLEEP);
    }

    @Test
    void aChangeBeforeAnythingWasWrittenIsAnotherWriterToo() {
        somebodyWrites(rig, 310);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.ASLEEP);
    }

    @Test
    void withoutApprovalNobodyIsToldOfOtherWriters() {
        GateRig unapproved = new GateRig(new Kept(), GateRig.site(GateRig.usualPermits()), false);
        somebodyWrites(unapproved, 310);
        assertThat(unapproved.events).isEmpty();
    }

    @Test
    void whoeverIsBackMayHoldSomethingElse() {
        written(rig);
        rig.link("boiler-1", false);
        rig.gate.step(rig.clock.ticks());
        rig.poll();
        rig.link("boiler-1", true);
        rig.gate.step(rig.clock.ticks());
        somebodyWrites(rig, 700);
        assertThat(rig.events).isEmpty();
    }

    @Test
    void thatAnotherControllerWasAwayExplainsNothing() {
        written(rig);
        rig.link("boiler-2", false);
        rig.gate.step(rig.clock.ticks());
        somebodyWrites(rig, 700);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.ASLEEP);
        assertThat(rig.events.get(0).point()).isEqualTo(LOAD);
        rig.unit.set(2, RegisterTable.HOLDING_REGISTER, 44, 700);
        rig.poll();
        assertThat(rig.gate.statuses())
                .filteredOn(status -> status.point().equals(OTHER_LOAD))
                .extracting(PermitStatus::asleep)
                .containsExactly("");
    }

    private void publish(Stamp askedAt, int word) {
        rig.table.publish(point(rig, LOAD), Reading.good(new RealValue(word / 10.0, 1), askedAt, Registers.of(word)));
        rig.gate.step(rig.clock.ticks());
    }

    /** What was asked for before a write has ended may be of before it. */
    @Test
    void aReadingThatWasAskedForBeforeTheWriteEndedTellsNothing() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.events.clear();
        Stamp end = rig.clock.now();
        publish(end, 300);
        assertThat(rig.events).isEmpty();
        rig.clock.forward(Duration.ofNanos(1));
        publish(rig.clock.now(), 350);
        assertThat(rig.events).isEmpty();
        publish(rig.clock.now(), 300);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.ASLEEP);
    }

    @Test
    void aReadingThatIsNotGoodTellsNothing() {
        written(rig);
        rig.clock.forward(Duration.ofSeconds(1));
        rig.table.publish(
                point(rig, LOAD),
                Reading.bad(Reason.OVER_RANGE, rig.clock.now(), Registers.of(700), rig.reading(LOAD)));
        rig.gate.step(rig.clock.ticks());
        assertThat(rig.events).isEmpty();
    }

    /** Whether it was taken nobody knows, so that either value may be there. */
    @Test
    void afterAWriteOfWhichNobodyKnowsWhatBecameTheNextReadingTellsWhatIsThere() {
        rig.unit.manner = RecordingUnit.Manner.APPLIES_AND_IS_SILENT;
        rig.unit.beforeWrite = () -> rig.unit.answers = false;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED);
        assertThat(rig.events.get(0).sentence()).contains("cannot be read back: no reply");
        rig.unit.answers = true;
        rig.poll();
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED);
        somebodyWrites(rig, 700);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED, WriteEvent.Kind.ASLEEP);
    }

    private static GateRig watched() {
        GateRig watched = new GateRig(new Kept(), GateRig.site(GateRig.usualPermits(), Optional.of(WATCHDOG)), true);
        watched.forward(GateRig.INTERVAL);
        return watched;
    }

    @Test
    void aWatchdogExplainsAChangeOnceItsTimeIsOver() {
        GateRig watched = watched();
        written(watched);
        watched.clock.forward(WATCHDOG);
        somebodyWrites(watched, 200);
        assertThat(watched.events).isEmpty();
        watched.clock.forward(GateRig.INTERVAL);
        watched.poll();
        assertThat(watched.ask(LOAD, "30")).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
    }

    @Test
    void whatAWatchdogLetGoIsWrittenAgainWhenItIsAskedForAgain() {
        GateRig watched = watched();
        watched.ask(LOAD, "30");
        watched.work();
        watched.clock.forward(GateRig.INTERVAL);
        watched.poll();
        somebodyWrites(watched, 200);
        assertThat(watched.ask(LOAD, "30")).isInstanceOf(Decision.Admitted.class);
        watched.work();
        assertThat(watched.register(1, 44)).isEqualTo(300);
    }

    @Test
    void aWatchdogExplainsNothingBefore() {
        GateRig watched = watched();
        watched.ask(LOAD, "35");
        watched.work();
        long sent = watched.clock.ticks();
        SitePoint load = point(watched, LOAD);
        watched.clock.forward(WATCHDOG.minusSeconds(1));
        watched.table.publish(load, Reading.good(new RealValue(20, 1), watched.clock.now(), Registers.of(200)));
        watched.gate.step(watched.clock.ticks());
        assertThat(watched.kinds()).contains(WriteEvent.Kind.ASLEEP);
        assertThat(watched.clock.ticks() - sent).isLessThan(WATCHDOG.toNanos());
    }
}
