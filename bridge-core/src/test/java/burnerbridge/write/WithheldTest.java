package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.WriteTemplate;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.encode.Templates;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.PointMemory;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the line finds out and the value table does not know yet keeps a write back, and floods nothing. */
class WithheldTest {
    private final GateRig rig = GateRig.ready();

    private long recorded(AuditKind kind) throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        new AuditVerifier(rig.kept.disk).verify(records::add);
        return records.stream()
                .filter(record -> record.kind().equals(kind.word()))
                .count();
    }

    private void assertCalm(String what) throws IOException {
        rig.forward(Duration.ofMinutes(5));
        assertThat(rig.unit.reads).as("reads of " + what).hasSizeLessThan(20);
        assertThat(rig.events).as(what).hasSize(1);
        assertThat(rig.events.get(0).kind()).isEqualTo(WriteEvent.Kind.HELD);
        assertThat(recorded(AuditKind.HELD)).isEqualTo(1);
    }

    @Test
    void aControllerThatWasSwappedIsNotAskedFiveTimesASecondWhoItIs() throws IOException {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5339);
        rig.ask(LOAD, "35");
        assertCalm("its identity");
        assertThat(rig.unit.frames).isEmpty();

        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5331);
        rig.forward(Duration.ofMinutes(1).plusSeconds(1));
        assertThat(rig.register(1, 44)).as("the right one is back").isEqualTo(350);
    }

    @Test
    void aControllerThatDoesNotSayWhoItIsIsNotAskedFiveTimesASecond() throws IOException {
        rig.unit.answers = false;
        rig.ask(LOAD, "35");
        assertCalm("its identity");
    }

    @Test
    void whoAsksForAnotherValueMeanwhileIsTriedAtOnce() {
        rig.unit.answers = false;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofMinutes(2));
        rig.unit.answers = true;
        rig.ask(LOAD, "36");
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(360);
    }

    private Ticket begun() {
        return rig.gate.begin(GateRig.LINE, (template, now) -> now).orElseThrow();
    }

    private void assertNeverLeaves(Ticket ticket) {
        Decision.Refused no = rig.gate.leaves(ticket).orElseThrow();
        rig.gate.ended(ticket, new Result.Withheld(no));
        assertThat(no.sentence()).isEqualTo("nobody asks for it any more");
    }

    @Test
    void silenceThatIsUnderWayLeavesNoMoreWhenSomebodyAsksAgain() {
        rig.ask(LOAD, "35");
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        rig.giveUp(LOAD, 8);
        Ticket silence = begun();
        assertThat(silence.cause()).isEqualTo(Cause.SILENCE);
        rig.ask(LOAD, "40");
        assertNeverLeaves(silence);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.register(1, 44)).isEqualTo(400);
        assertThat(rig.unit.frames).hasSize(2);
    }

    @Test
    void aDemandThatIsUnderWayLeavesNoMoreWhenItIsGivenUp() {
        rig.ask(LOAD, "35");
        Ticket demand = begun();
        rig.giveUp(LOAD, 8);
        assertNeverLeaves(demand);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.unit.frames)
                .as("it never stood, so that nothing is to be taken back")
                .isEmpty();
        assertThat(rig.gate.isQuiet()).isTrue();
    }

    @Test
    void whatComesUpMeanwhileIsWrittenInItsPlace() {
        rig.ask(LOAD, "25", 12);
        rig.ask(LOAD, "35", 8);
        Ticket demand = begun();
        rig.giveUp(LOAD, 8);
        assertNeverLeaves(demand);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.register(1, 44)).isEqualTo(250);
        assertThat(rig.unit.frames).hasSize(1);
    }

    /** Its template was left out, so that the line knows nothing of it. */
    @Test
    void whatBecameProtectedWhileItStoodHoldsUpNothingElseOnItsLine() throws IOException {
        PointId alias = GateRig.id("boiler-1", "alias");
        Kept kept = new Kept();
        GateMemory.anew(kept.disk, 0, Map.of(alias, PointMemory.NONE.owing(true)));
        GateRig mistyped = new GateRig(kept, GateRig.mistyped(), true);
        WriteTemplate leftOut = mistyped.site.permits().stream()
                .filter(permit -> permit.point().equals(alias))
                .map(permit -> Templates.of(
                        mistyped.site.points().stream()
                                .filter(point -> point.id().equals(alias))
                                .findFirst()
                                .orElseThrow(),
                        permit))
                .findFirst()
                .orElseThrow();
        WriteGate.Turn turn = (template, now) -> {
            if (template.equals(leftOut)) {
                throw new IllegalArgumentException("this line was made without it");
            }
            return now;
        };
        mistyped.clock.forward(GateRig.LEASE);
        mistyped.gate.step(mistyped.clock.ticks());
        mistyped.ask(LOAD, "35");

        assertThat(mistyped.gate.readyAt(GateRig.LINE, turn, mistyped.clock.ticks()))
                .isPresent();
        assertThat(mistyped.gate.begin(GateRig.LINE, turn))
                .hasValueSatisfying(
                        ticket -> assertThat(ticket.permitted().id()).isEqualTo(LOAD));
        assertThat(mistyped.kinds()).containsExactly(WriteEvent.Kind.SILENCE, WriteEvent.Kind.FAILED);
    }

    /** Its next reading puts the value table right, so that the next ask is refused at once. */
    @Test
    void whoIsNotTheApprovedOneIsReadAgainSoon() {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5339);
        rig.ask(LOAD, "35");
        assertThat(rig.writer.run()).extracting(point -> point.id()).containsExactly(GateRig.id("boiler-1", "serial"));
    }
}
