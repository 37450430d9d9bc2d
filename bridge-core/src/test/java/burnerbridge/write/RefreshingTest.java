package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.permit.WritePermit;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What stands in a controller that lets it go by itself, where nothing is written for a while. */
class RefreshingTest {
    private static final Duration WATCHDOG = Duration.ofMinutes(4);

    private static GateRig rig(List<WritePermit> permits) {
        GateRig rig = new GateRig(new Kept(), GateRig.site(permits, Optional.of(WATCHDOG)), true);
        rig.forward(GateRig.INTERVAL);
        return rig;
    }

    private static long loads(GateRig rig) {
        return rig.unit.frames.stream()
                .filter(frame -> frame.template().range().first() == 44)
                .count();
    }

    @Test
    void whatStandsIsWrittenAgainTwiceInTheWatchdogsTimeUntilItsLeaseEnds() {
        GateRig rig = rig(GateRig.usualPermits());
        rig.ask(LOAD, "35");
        rig.forward(WATCHDOG.minusSeconds(1));
        assertThat(loads(rig)).isEqualTo(2);
        rig.forward(Duration.ofSeconds(10));
        assertThat(loads(rig)).isEqualTo(3);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN);
        rig.forward(GateRig.LEASE);
        long then = loads(rig);
        assertThat(rig.register(1, 44)).isEqualTo(200);
        rig.forward(WATCHDOG.multipliedBy(3));
        assertThat(loads(rig)).isEqualTo(then);
        assertThat(rig.gate.status(LOAD).orElseThrow().spent()).isEqualTo(then);
    }

    @Test
    void whereAHeartbeatKeepsItNothingIsWrittenAgain() {
        GateRig rig = rig(GateRig.permitsWithBeat());
        rig.ask(LOAD, "35");
        rig.ask(GateRig.ENABLE, "1");
        rig.forward(WATCHDOG.multipliedBy(2));
        assertThat(loads(rig)).isEqualTo(1);
    }

    @Test
    void whereNoWatchdogIsStatedNothingIsWrittenAgain() {
        GateRig rig = GateRig.ready();
        rig.ask(LOAD, "35");
        rig.forward(GateRig.LEASE.minusSeconds(10));
        assertThat(loads(rig)).isEqualTo(1);
    }

    @Test
    void whereNoRecordCanBeKeptWhatStandsIsNotWrittenAgainAndThatIsTold() {
        GateRig rig = rig(GateRig.usualPermits());
        rig.ask(LOAD, "35");
        rig.work();
        rig.kept.disk.fill();
        rig.forward(WATCHDOG.plusSeconds(1));
        assertThat(loads(rig)).isEqualTo(1);
        assertThat(rig.events)
                .filteredOn(event -> event.kind() == WriteEvent.Kind.FAILED)
                .hasSize(2)
                .allMatch(event -> event.sentence().startsWith("what stands was not written again"));
        assertThat(rig.gate.status(LOAD).orElseThrow().winner()).isPresent();
    }
}
