package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.RegisterTable;
import burnerbridge.table.ControllerLink;
import java.time.Duration;
import org.junit.jupiter.api.Test;

/** Somebody else writes to a permitted register: when that is seen, and what only looks like it. */
class AnotherWriterTest {
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
}
