package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.Fault;
import burnerbridge.line.Outcome;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import burnerbridge.write.RecordingUnit.Manner;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What is done on the line's own thread, when, and which points should be read soon after it. */
class LineWriterTest {
    private static final Duration BETWEEN = Duration.ofMillis(500);

    private final GateRig rig = GateRig.ready();

    private List<PointId> run() {
        return rig.writer.run().stream().map(SitePoint::id).toList();
    }

    private long loadReads() {
        return rig.unit.reads.stream().filter(read -> read.first() == 44).count();
    }

    @Test
    void whatWasWrittenShouldBeReadSoon() {
        rig.ask(LOAD, "35");
        assertThat(run()).containsExactly(LOAD);
        assertThat(run()).isEmpty();
    }

    @Test
    void whateverBecameOfAWriteItsPointShouldBeReadSoon() {
        for (Manner manner : List.of(Manner.NOT_SENT, Manner.REFUSES)) {
            GateRig one = GateRig.ready();
            one.unit.manner = manner;
            one.ask(LOAD, "35");
            assertThat(one.writer.run())
                    .as("%s", manner)
                    .extracting(SitePoint::id)
                    .containsExactly(LOAD);
        }
        rig.ask(LOAD, "35");
        rig.unit.whileEncoding = () -> rig.unit.connections++;
        assertThat(run()).containsExactly(LOAD);
    }

    @Test
    void aStrangerGetsNothingAndIsReadSoonSoThatEverybodySeesWhoItIs() {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5339);
        rig.ask(LOAD, "35");
        assertThat(run()).containsExactly(GateRig.id("boiler-1", "serial"));
        assertThat(rig.gate.statuses().get(0).held()).isEqualTo("boiler-1 says that it is S9, and S1 was approved");
        assertThat(rig.unit.frames).isEmpty();
    }

    @Test
    void whoDoesNotSayWhoHeIsGetsNothing() {
        rig.unit.answers = false;
        rig.ask(LOAD, "35");
        run();
        assertThat(rig.gate.statuses().get(0).held()).isEqualTo("boiler-1 does not say who it is: no reply");
    }

    @Test
    void whoSaysNothingAtAllIsNobody() {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0);
        rig.ask(LOAD, "35");
        run();
        assertThat(rig.gate.statuses().get(0).held()).isEqualTo("boiler-1 says that it is nobody, and S1 was approved");
    }

    /** A minute after it was read it is read again, and whenever the controller was away. */
    @Test
    void whoItIsHoldsForAMinuteAndForOneTimeThatItWasThere() {
        rig.ask(LOAD, "35");
        run();
        long read = rig.clock.ticks();
        rig.clock.forward(Duration.ofSeconds(59));
        rig.unit.reads.clear();
        rig.ask(ENABLE, "1");
        run();
        assertThat(rig.unit.reads).noneMatch(one -> one.first() == 100);
        rig.clock.forward(Duration.ofNanos(read + Duration.ofSeconds(60).toNanos() - rig.clock.ticks()));
        rig.ask(GateRig.MODE, "1");
        run();
        assertThat(rig.unit.reads).anyMatch(one -> one.first() == 100);
        rig.unit.reads.clear();
        rig.link("boiler-1", false);
        rig.link("boiler-1", true);
        rig.clock.forward(Duration.ofSeconds(59));
        rig.ask(ENABLE, "0");
        run();
        assertThat(rig.unit.reads).anyMatch(one -> one.first() == 100);
    }

    @Test
    void aWriteThatIsNotSeenInItsRegistersIsLookedAtThreeTimesInASecond() {
        rig.unit.manner = Manner.ACCEPTS_AND_IGNORES;
        rig.ask(LOAD, "35");
        assertThat(run()).isEmpty();
        assertThat(loadReads()).isEqualTo(1);
        long second = rig.clock.ticks() + BETWEEN.toNanos();
        assertThat(rig.writer.readyAt(rig.clock.ticks())).hasValue(second);
        rig.clock.forward(BETWEEN.minusNanos(1));
        assertThat(run()).isEmpty();
        assertThat(loadReads()).isEqualTo(1);
        rig.clock.forward(Duration.ofNanos(1));
        assertThat(run()).isEmpty();
        assertThat(loadReads()).isEqualTo(2);
        assertThat(rig.gate.isQuiet()).isFalse();
        rig.clock.forward(BETWEEN);
        assertThat(run()).containsExactly(LOAD);
        assertThat(loadReads()).isEqualTo(3);
        assertThat(rig.gate.isQuiet()).isTrue();
        assertThat(rig.writer.readyAt(rig.clock.ticks())).isEmpty();
    }

    @Test
    void anotherWriteDoesNotWaitForTheLookAtTheOneBefore() {
        rig.unit.manner = Manner.APPLIES_LATE;
        rig.ask(LOAD, "35");
        run();
        long look = rig.writer.readyAt(rig.clock.ticks()).orElseThrow();
        rig.unit.manner = Manner.WELL;
        rig.ask(ENABLE, "1");
        assertThat(rig.writer.readyAt(rig.clock.ticks())).hasValue(rig.clock.ticks());
        assertThat(run()).containsExactly(ENABLE);
        assertThat(rig.writer.readyAt(rig.clock.ticks())).hasValue(look);
    }

    @Test
    void aLookDoesNotWaitForAWriteThatMustWait() {
        rig.unit.manner = Manner.APPLIES_LATE;
        rig.ask(LOAD, "35");
        run();
        long look = rig.writer.readyAt(rig.clock.ticks()).orElseThrow();
        rig.ask(ENABLE, "1");
        rig.unit.writesIn = Duration.ofSeconds(3);
        assertThat(rig.writer.readyAt(rig.clock.ticks())).hasValue(look);
    }

    @Test
    void aDefectOfOursLeavesNoWriteUnderWay() {
        rig.ask(LOAD, "35");
        rig.unit.beforeWrite = () -> {
            throw new IllegalStateException("a defect");
        };
        assertThatThrownBy(rig.writer::run).hasMessage("a defect");
        assertThat(rig.gate.isQuiet()).isTrue();
        assertThat(rig.events)
                .singleElement()
                .satisfies(event -> assertThat(event.sentence())
                        .isEqualTo("whether 35.0 was written is not known: the bridge failed in itself: a defect"));
    }

    @Test
    void whatBecameOfAReadIsSaid() {
        Stamp now = rig.clock.now();
        assertThat(LineWriter.words(new Outcome.Refused(2, now))).isEqualTo("exception 2");
        assertThat(LineWriter.words(new Outcome.Silent(now))).isEqualTo("no reply");
        assertThat(LineWriter.words(new Outcome.NotConnected("the line is down")))
                .isEqualTo("the line is down");
        assertThat(LineWriter.words(new Outcome.Broken(Fault.values()[0], "a wrong checksum", now)))
                .isEqualTo("a wrong checksum");
    }
}
