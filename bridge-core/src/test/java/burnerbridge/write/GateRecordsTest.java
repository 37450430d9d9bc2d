package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.RegisterTable;
import burnerbridge.write.audit.AuditRecord;
import burnerbridge.write.audit.AuditReport;
import burnerbridge.write.audit.AuditVerifier;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What of asks, decisions and writes stands in the audit afterwards. */
class GateRecordsTest {
    private final GateRig rig = GateRig.ready();

    private List<AuditRecord> records() throws IOException {
        rig.gate.step(rig.clock.ticks());
        List<AuditRecord> records = new ArrayList<>();
        AuditReport report = new AuditVerifier(rig.kept.disk).verify(records::add);
        assertThat(report.isWhole()).isTrue();
        return records;
    }

    private static String detail(AuditRecord record, String name) {
        return record.details().getOrDefault(name, "");
    }

    private List<String> told() throws IOException {
        return records().stream()
                .map(record -> String.join(
                        " | ",
                        record.kind(),
                        detail(record, "source"),
                        detail(record, "previous"),
                        detail(record, "asked"),
                        detail(record, "code"),
                        detail(record, "readBack")))
                .toList();
    }

    @Test
    void aWriteLeavesWhoAskedForWhatWhatWasThereAndWhatBecameOfIt() throws IOException {
        rig.ask(LOAD, "35.5");
        rig.work();
        assertThat(told())
                .containsExactly(
                        "admitted | bacnet 192.0.2.7:47808 | 30.0 | 35.5 | to-be-written | ",
                        "intent | bacnet 192.0.2.7:47808 |  | 35.5 |  | ",
                        "outcome | bacnet 192.0.2.7:47808 |  | 35.5 | written | 35.5");
        AuditRecord intent = records().get(1);
        assertThat(intent.details())
                .containsEntry("point", "boiler-1.load-demand")
                .containsEntry("bytes", "010663")
                .containsEntry("approval", "a hash")
                .containsEntry("memory", "1");
    }

    @Test
    void whatWasRefusedIsThereWithItsQuestion() throws IOException {
        rig.ask(LOAD, "90.1");
        assertThat(told()).containsExactly("refused | bacnet 192.0.2.7:47808 | 30.0 | 90.1 | range | ");
    }

    @Test
    void everySlotThatIsTakenAndGivenUpIsThereAndWhatIsRenewedIsNot() throws IOException {
        rig.ask(LOAD, "35", 8);
        rig.ask(LOAD, "35", 8);
        rig.ask(LOAD, "36", 12);
        rig.giveUp(LOAD, 12);
        assertThat(records())
                .extracting(record -> detail(record, "code") + " " + detail(record, "sentence"))
                .containsExactly("to-be-written slot 8", "behind slot 12", "given-up slot 12");
    }

    @Test
    void whatIsHeldAndWhatEndsBySilenceIsThere() throws IOException {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "38", 12);
        rig.ask(LOAD, "34", 8);
        rig.work();
        rig.giveUp(LOAD, 8);
        rig.forward(GateRig.LEASE.plusMinutes(1));
        assertThat(records())
                .extracting(AuditRecord::kind)
                .containsSubsequence("held", "intent", "outcome", "lease", "silence", "intent", "outcome");
        assertThat(records())
                .filteredOn(record -> record.kind().equals("held"))
                .singleElement()
                .satisfies(record -> {
                    assertThat(detail(record, "source")).isEqualTo("bridge");
                    assertThat(detail(record, "point")).isEqualTo("boiler-1.load-demand");
                    assertThat(detail(record, "sentence")).contains("may be written once in 60 s");
                });
        assertThat(told()).endsWith("outcome | bridge silence |  | 20.0 | written | 20.0");
    }

    @Test
    void anotherWriterIsThere() throws IOException {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 700);
        rig.poll();
        assertThat(records()).extracting(AuditRecord::kind).containsExactly("another-writer");
    }

    @Test
    void whatIsKeptBackInItsTurnIsThereThoughItWasAdmitted() throws IOException {
        rig.ask(ENABLE, "1");
        rig.link("boiler-1", false);
        rig.work();
        assertThat(told())
                .containsExactly(
                        "admitted | bacnet 192.0.2.7:47808 | 0 | 1 | to-be-written | ",
                        "refused | bacnet 192.0.2.7:47808 |  | 1 | answering | ",
                        "held | bridge |  |  |  | ");
    }

    /** The intent is on the disk by then, and needs its end. */
    @Test
    void whatIsKeptBackInTheLastMomentWasNotSent() throws IOException {
        rig.ask(LOAD, "35");
        rig.unit.whileEncoding = () -> rig.link("boiler-1", false);
        rig.work();
        assertThat(told())
                .contains(
                        "intent | bacnet 192.0.2.7:47808 |  | 35.0 |  | ",
                        "outcome | bacnet 192.0.2.7:47808 |  | 35.0 | not-sent | ");
    }

    @ParameterizedTest
    @CsvSource({
        "NOT_SENT, not-sent, '', there is no connection",
        "REFUSES, refused-by-controller, '', the controller refused to take 35.0 with exception 3",
        "ACCEPTS_AND_IGNORES, not-taken, 30.0,"
                + " 'the controller accepted it, and its registers hold 30.0 instead of 35.0'",
        "IGNORES_AND_IS_SILENT, not-taken, 30.0,"
                + " 'no reply told what became of it (no reply), and its registers hold 30.0 instead of 35.0'",
        "APPLIES_AND_IS_SILENT, written, 35.0, 35.0 was written",
        "APPLIES_LATE, written, 35.0, 35.0 was written"
    })
    void whatBecameOfAWriteIsSaid(RecordingUnit.Manner manner, String code, String readBack, String sentence)
            throws IOException {
        rig.unit.manner = manner;
        rig.ask(LOAD, "35");
        rig.writer.run();
        for (int i = 0; i < 4; i++) {
            rig.clock.forward(Duration.ofMillis(500));
            rig.writer.run();
        }
        assertThat(records())
                .filteredOn(record -> record.kind().equals("outcome"))
                .singleElement()
                .satisfies(record -> {
                    assertThat(detail(record, "code")).isEqualTo(code);
                    assertThat(detail(record, "readBack")).isEqualTo(readBack);
                    assertThat(detail(record, "sentence")).isEqualTo(sentence);
                });
    }

    @Test
    void whatCannotBeReadBackIsUnknown() throws IOException {
        rig.unit.beforeWrite = () -> rig.unit.answers = false;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofSeconds(2));
        assertThat(records())
                .filteredOn(record -> record.kind().equals("outcome"))
                .singleElement()
                .satisfies(record -> {
                    assertThat(detail(record, "code")).isEqualTo("unknown");
                    assertThat(detail(record, "sentence"))
                            .isEqualTo("whether 35.0 was written is not known: the controller accepted it, and its"
                                    + " registers cannot be read back: no reply");
                });
    }

    @Test
    void ofMoreAsksThanTheDiskKeepsUpWithTheRestIsCounted() throws IOException {
        for (int i = 0; i < 10_003; i++) {
            rig.keeping.told(new WriteEvent(WriteEvent.Kind.HELD, LOAD, "held " + i));
        }
        assertThat(records()).hasSizeGreaterThan(9_000);
        assertThat(records())
                .filteredOn(record -> record.kind().equals("room"))
                .singleElement()
                .satisfies(record -> assertThat(detail(record, "sentence"))
                        .isEqualTo("3 records of asks were left out, since more came than could be kept"));
    }
}
