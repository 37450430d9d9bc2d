package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.RegisterTable;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Decision;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Somebody else writes to a permitted register: when that is seen, and what only looks like it. */
class AnotherWriterTest {
    private static final Duration WATCHDOG = Duration.ofMinutes(20);

    private final GateRig rig = GateRig.ready();

    private static void somebodyWrites(GateRig rig, int raw) {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, raw);
        rig.poll();
    }

    private static void link(GateRig rig, ControllerLink link) {
        rig.site.controllers().stream()
                .filter(one -> one.name().text().equals("boiler-1"))
                .forEach(one -> rig.table.publish(one, link));
        rig.gate.step(rig.clock.ticks());
    }

    private static void away(GateRig rig) {
        link(rig, ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", rig.clock.now()));
        rig.forward(Duration.ofSeconds(2));
        link(rig, ControllerLink.up(rig.clock.now()));
    }

    @Test
    void whoPutsTheValueOfBeforeBackBeforeItIsPolledIsSeen() {
        rig.poll();
        rig.ask(LOAD, "35");
        rig.work();
        rig.clock.forward(Duration.ofMillis(500));
        somebodyWrites(rig, 300);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.ASLEEP);
    }

    @Test
    void whoWritesAfterAControllerWasAwayForAMomentIsSeen() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.poll();
        away(rig);
        rig.forward(Duration.ofSeconds(2));
        rig.poll();
        rig.forward(Duration.ofSeconds(2));
        somebodyWrites(rig, 700);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.ASLEEP);
    }

    @Test
    void whatAControllerThatWasAwayBeginsWithIsNobodysWrite() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.poll();
        away(rig);
        rig.forward(Duration.ofSeconds(2));
        somebodyWrites(rig, 100);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN);
    }

    @Test
    void aWatchdogThatActsSoonAfterARestartIsNobodysWrite() {
        GateRig before = new GateRig(new Kept(), GateRig.site(GateRig.usualPermits(), Optional.of(WATCHDOG)), true);
        before.forward(GateRig.INTERVAL);
        before.ask(LOAD, "35");
        before.forward(WATCHDOG.minusMinutes(6));
        GateRig after = before.restarted(true);
        after.forward(Duration.ofMinutes(6));
        somebodyWrites(after, 0);
        assertThat(after.kinds()).isEmpty();
        after.forward(GateRig.LEASE);
        assertThat(after.register(1, 44)).as("its silence").isEqualTo(200);
    }

    @Test
    void aWriteThatTakesEffectAfterItWasGivenUpIsNobodyElses() {
        rig.unit.manner = RecordingUnit.Manner.ACCEPTS_AND_IGNORES;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofSeconds(2));
        rig.poll();
        rig.clock.forward(Duration.ofSeconds(1));
        somebodyWrites(rig, 350);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED);
        rig.clock.forward(Duration.ofSeconds(1));
        somebodyWrites(rig, 700);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED, WriteEvent.Kind.ASLEEP);
    }

    @Test
    void whoAsksAgainForWhatAControllerWasLeftToLetGoHasItWritten() {
        GateRig released = new GateRig(new Kept(), GateRig.site(List.of(releasing()), Optional.of(WATCHDOG)), true);
        released.forward(GateRig.INTERVAL);
        released.ask(LOAD, "35");
        released.forward(GateRig.LEASE.plusSeconds(1));
        assertThat(released.kinds()).contains(WriteEvent.Kind.SILENCE);
        int before = released.unit.frames.size();
        assertThat(released.ask(LOAD, "35")).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
        released.work();
        assertThat(released.unit.frames).hasSize(before + 1);
    }

    private static WritePermit releasing() {
        WritePermit load = GateRig.load(LOAD);
        Purpose.Asked asked = load.asked().orElseThrow();
        return new WritePermit(
                LOAD,
                new Purpose.Asked(
                        asked.from(),
                        asked.allowed(),
                        asked.step(),
                        asked.interval(),
                        asked.mqttPriority(),
                        Optional.of(new Silence(GateRig.LEASE, new Silence.Action.Release()))),
                load.function(),
                load.storage(),
                load.reason());
    }
}
