package burnerbridge.write;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.permit.Functions;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditReport;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The power goes at every single operation of the disk, and whatever was not forced is gone. */
class GateCrashTest {
    private static final long MORE_THAN_ALL = 1_000_000;

    /** Two writes of a register that wears, and the silence after them. */
    private static void scenario(GateRig rig) {
        rig.ask(GateRig.LOAD, "35");
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        rig.ask(GateRig.LOAD, "40");
        rig.forward(Duration.ofSeconds(1));
        rig.giveUp(GateRig.LOAD, 8);
        rig.forward(Duration.ofSeconds(2));
    }

    static LongStream operations() {
        GateRig rig = GateRig.ready();
        long first = rig.kept.disk.operations();
        scenario(rig);
        return LongStream.rangeClosed(1, rig.kept.disk.operations() - first);
    }

    private static List<AuditRecord> records(GateRig rig) throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        AuditReport report = new AuditVerifier(rig.kept.disk).verify(records::add);
        assertThat(report.findings()).isEmpty();
        return records;
    }

    private static long loadFrames(GateRig rig) {
        return rig.unit.frames.stream()
                .filter(frame -> frame.template().function() == Functions.SINGLE_REGISTER)
                .count();
    }

    @Test
    void withoutAPowerCutTheScenarioWritesThreeTimes() throws IOException {
        GateRig rig = GateRig.ready();
        scenario(rig);
        assertThat(loadFrames(rig)).isEqualTo(3);
        assertThat(rig.register(1, 44)).isEqualTo(200);
        assertThat(records(rig))
                .filteredOn(record -> record.kind().equals(AuditKind.INTENT.word()))
                .hasSize(3);
    }

    @ParameterizedTest
    @MethodSource("operations")
    void noWriteIsWithoutItsRecordAndItsDebitAndSilenceComesInTime(long nth) throws IOException {
        GateRig rig = GateRig.ready();
        rig.kept.disk.crashAt(nth);
        try {
            scenario(rig);
        } catch (ForgetfulDisk.PowerCut expected) {
            // That is the point of it.
        }
        rig.kept.disk.crashAt(MORE_THAN_ALL);
        rig.kept.disk.crash();

        GateRig after = rig.restarted(true);
        long intents = records(after).stream()
                .filter(record -> record.kind().equals(AuditKind.INTENT.word()))
                .count();
        assertThat(intents).isGreaterThanOrEqualTo(loadFrames(rig));
        assertThat(after.keeping.spent(GateRig.LOAD)).isGreaterThanOrEqualTo(loadFrames(rig));
        boolean written = after.register(1, 44) != 300;
        after.forward(GateRig.LEASE.plusSeconds(2));
        if (written) {
            assertThat(after.register(1, 44)).isEqualTo(200);
        }
        assertThat(after.gate.isQuiet()).isTrue();
    }

    @Test
    void aFullDiskRefusesEveryWriteButThatForSilence() {
        GateRig rig = GateRig.ready();
        rig.ask(GateRig.LOAD, "35");
        rig.work();
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        rig.kept.disk.fill();
        rig.ask(GateRig.LOAD, "40");
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.register(1, 44)).isEqualTo(350);
        rig.giveUp(GateRig.LOAD, 8);
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.register(1, 44)).isEqualTo(200);
    }

    @Test
    void whatFoundNoPlaceWhileTheDiskWasFullIsCountedOnceItHasRoom() throws IOException {
        GateRig rig = GateRig.ready();
        rig.kept.disk.fill();
        for (int i = 0; i < 10_050; i++) {
            rig.ask(GateRig.LOAD, "500");
        }
        rig.forward(Duration.ofSeconds(1));
        rig.kept.disk.empty();
        rig.forward(Duration.ofSeconds(1));
        assertThat(records(rig))
                .filteredOn(record -> record.kind().equals(AuditKind.ROOM.word()))
                .singleElement()
                .satisfies(record ->
                        assertThat(record.details().get("sentence")).startsWith("50 records of asks were left out"));
    }
}
