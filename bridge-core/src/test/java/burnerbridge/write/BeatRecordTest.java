package burnerbridge.write;

import static burnerbridge.write.GateRig.BEAT;
import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditVerifier;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the audit has of a heartbeat: that it begins, each time, what goes wrong with it, once, and that it ends. */
class BeatRecordTest {
    private final GateRig rig = ready();

    private static GateRig ready() {
        GateRig rig = new GateRig(new Kept(), GateRig.site(GateRig.permitsWithBeat()), true);
        rig.forward(GateRig.INTERVAL);
        return rig;
    }

    private List<String> sentences(AuditKind kind) throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        new AuditVerifier(rig.kept.disk).verify(records::add);
        return records.stream()
                .filter(record -> record.kind().equals(kind.word()))
                .filter(record -> BEAT.toString().equals(record.details().get("point")))
                .map(record -> record.details().getOrDefault("sentence", ""))
                .toList();
    }

    private void beat(Duration time) {
        rig.ask(LOAD, "30");
        rig.ask(ENABLE, "1");
        rig.forward(time);
        rig.giveUp(ENABLE, 8);
        rig.forward(GateRig.INTERVAL.plusSeconds(5));
    }

    @Test
    void aHeartbeatThatBeginsAnewIsRecordedThoughNoneOfTheLastBeatsWasTaken() throws IOException {
        rig.ask(LOAD, "30");
        rig.ask(ENABLE, "1");
        rig.work();
        rig.unit.manner = RecordingUnit.Manner.REFUSES;
        rig.forward(Duration.ofSeconds(10));
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.giveUp(ENABLE, 8);
        rig.forward(GateRig.INTERVAL.plusSeconds(5));
        assertThat(sentences(AuditKind.INTENT)).hasSize(1);

        beat(Duration.ofSeconds(10));

        assertThat(sentences(AuditKind.INTENT)).hasSize(2);
    }

    @Test
    void eachHeartbeatIsToldWithItsOwnBeats() throws IOException {
        beat(Duration.ofSeconds(10));
        beat(Duration.ofSeconds(10));
        List<String> ends = sentences(AuditKind.OUTCOME);
        assertThat(ends).hasSize(2);
        assertThat(ends.get(1)).isEqualTo(ends.get(0)).contains("after 5 beats");
    }

    @Test
    void aControllerThatTakesNoBeatIsRecordedOnceAndNotForEachOfThem() throws IOException {
        rig.ask(LOAD, "30");
        rig.ask(ENABLE, "1");
        rig.work();
        rig.unit.manner = RecordingUnit.Manner.REFUSES;
        rig.forward(Duration.ofMinutes(5));
        assertThat(sentences(AuditKind.OUTCOME)).hasSize(1);
    }
}
