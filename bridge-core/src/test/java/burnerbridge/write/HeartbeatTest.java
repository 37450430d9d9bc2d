package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditVerifier;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A heartbeat every two seconds that counts 1, 2, 3, 0. */
class HeartbeatTest {
    private final GateRig rig = new GateRig(new Kept(), GateRig.site(GateRig.permitsWithBeat()), true);
    private final List<Long> beats = new ArrayList<>();

    @BeforeEach
    void everyDemandStands() {
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "30");
        rig.ask(ENABLE, "1");
        rig.forward(Duration.ofSeconds(1));
    }

    private List<RecordingUnit.Frame> beatFrames() {
        return rig.unit.frames.stream()
                .filter(frame -> frame.template().range().first() == 48)
                .toList();
    }

    private List<AuditRecord> records(String ofSource) throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        new AuditVerifier(rig.kept.disk).verify(records::add);
        return records.stream()
                .filter(record -> record.details().getOrDefault("source", "").equals(ofSource))
                .toList();
    }

    @Test
    void itIsWrittenEveryTwoSecondsAndCounts() {
        rig.unit.frames.clear();
        rig.unit.beforeWrite = () -> beats.add(rig.clock.ticks());
        rig.forward(Duration.ofSeconds(10));
        assertThat(beatFrames()).extracting(frame -> frame.data().word(0)).containsExactly(2, 3, 0, 1, 2);
        for (int i = 1; i < beats.size(); i++) {
            assertThat(Duration.ofNanos(beats.get(i) - beats.get(i - 1)))
                    .isBetween(Duration.ofSeconds(2), Duration.ofMillis(2300));
        }
    }

    @Test
    void itIsDueToTheTick() {
        long first = rig.clock.ticks();
        while (!isQueued(first)) {
            first += Duration.ofMillis(1).toNanos();
        }
        rig.work();
        long next = first + Duration.ofSeconds(2).toNanos();
        assertThat(isQueued(next - 1)).isFalse();
        assertThat(isQueued(next)).isTrue();
    }

    private boolean isQueued(long now) {
        rig.gate.step(now);
        return !rig.gate.isQuiet();
    }

    @Test
    void itBeginsAndEndsWithARecordAndItsBeatsHaveNone() throws IOException {
        rig.forward(Duration.ofSeconds(9));
        int beaten = beatFrames().size();
        assertThat(beaten).isEqualTo(5);
        rig.giveUp(ENABLE, 8);
        rig.forward(Duration.ofSeconds(9));
        assertThat(records("bridge heartbeat")).extracting(AuditRecord::kind).containsExactly("intent", "outcome");
        assertThat(records("bridge heartbeat").get(0).print())
                .contains("the heartbeat begins; its beats are counted, and not recorded one by one");
        assertThat(records("bridge heartbeat").get(1).print()).contains("the heartbeat ends after 5 beats");
        assertThat(beatFrames()).hasSize(beaten);
    }

    @Test
    void oneThatBeginsAgainIsRecordedAgain() throws IOException {
        rig.giveUp(ENABLE, 8);
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        rig.ask(ENABLE, "1");
        rig.forward(Duration.ofSeconds(5));
        assertThat(records("bridge heartbeat"))
                .extracting(AuditRecord::kind)
                .containsExactly("intent", "outcome", "intent");
    }

    @Test
    void aBeatOfWhichNobodyKnowsWhatBecameIsRecordedAndTheNextGoesOn() throws IOException {
        rig.unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        rig.forward(Duration.ofSeconds(2));
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.forward(Duration.ofSeconds(4));
        assertThat(records("bridge heartbeat"))
                .extracting(record -> record.details().getOrDefault("code", ""))
                .containsExactly("", "unknown");
        assertThat(beatFrames()).hasSize(4);
        assertThat(rig.kinds()).doesNotContain(WriteEvent.Kind.FAILED);
    }

    /** What a controller does with a beat is its own affair: it is not read back. */
    @Test
    void aBeatIsNotReadBack() {
        rig.unit.reads.clear();
        rig.forward(Duration.ofSeconds(4));
        assertThat(rig.unit.reads).noneMatch(read -> read.first() == 48);
    }

    @Test
    void aBeatIsKeptBackSilentlyWhileTheControllerIsAway() {
        rig.unit.frames.clear();
        rig.link("boiler-1", false);
        rig.events.clear();
        rig.forward(Duration.ofSeconds(10));
        assertThat(beatFrames()).isEmpty();
        assertThat(rig.events).isEmpty();
        rig.link("boiler-1", true);
        rig.forward(Duration.ofSeconds(3));
        assertThat(beatFrames()).isNotEmpty();
    }

    @Test
    void aGateThatClosesStopsTheHeartbeatFirst() {
        rig.unit.frames.clear();
        rig.gate.close("the bridge ends");
        rig.forward(Duration.ofSeconds(10));
        assertThat(beatFrames()).isEmpty();
        assertThat(rig.unit.frames).hasSize(2);
    }

    @Test
    void aBeatIsNoDemandThatMustBeTakenBack() {
        rig.forward(Duration.ofSeconds(4));
        assertThat(rig.keeping.isStanding(GateRig.BEAT)).isFalse();
        assertThat(rig.keeping.isStanding(LOAD)).isTrue();
    }
}
