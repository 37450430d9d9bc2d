package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.control.JsonLine;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class AuditTrailTest {
    private static final PointId POINT = new PointId(new Name("boiler-1"), new Name("load-demand"));
    private static final String FIRST = "audit-000001.jsonl";
    private static final String SECOND = "audit-000002.jsonl";

    private final ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private final HandClock clock = new HandClock();

    private AuditTrail open() throws IOException {
        return AuditTrail.open(disk, clock);
    }

    private AuditTrail open(long fileSize, int files) throws IOException {
        return AuditTrail.open(disk, clock, new AuditRules(fileSize, files, 60));
    }

    private static AuditEntry admitted(int value) {
        return AuditEntry.of(AuditKind.ADMITTED)
                .from("bacnet 192.0.2.7:47808")
                .at(POINT)
                .previous("20.0")
                .asked(Integer.toString(value))
                .decided("admitted", "it is in slot 12");
    }

    private static List<String> lines(ForgetfulDisk disk, String file) {
        return new String(disk.look(file), StandardCharsets.UTF_8).lines().toList();
    }

    private List<AuditRecord> records() throws IOException {
        List<AuditRecord> records = new ArrayList<>();
        assertThat(new AuditVerifier(disk).verify(records::add).findings()).isEmpty();
        return records;
    }

    private List<String> kinds() throws IOException {
        return records().stream().map(AuditRecord::kind).toList();
    }

    @Test
    void aRecordIsOneLineWithAllThatWasTold() throws IOException {
        AuditTrail trail = open();
        AuditHead head = trail.recordForced(AuditEntry.of(AuditKind.OUTCOME)
                .from("mqtt boiler\nroom \"ü\"")
                .at(POINT)
                .previous("42.0")
                .asked("45.0")
                .decided("accepted", "the controller accepted it, and holds it")
                .bytes(new byte[] {1, 6, 0, (byte) 0xC8, 0, 45})
                .readBack("45.0")
                .remembering(17, 3));
        String line = lines(disk, FIRST).get(0);
        assertThat(line)
                .isEqualTo(
                        "{\"sequence\":1,\"at\":\"2026-11-25T08:00:00.250Z\",\"clock\":\"believed\",\"kind\":\"outcome\","
                                + "\"source\":\"mqtt boiler\\nroom \\\"ü\\\"\",\"point\":\"boiler-1.load-demand\","
                                + "\"previous\":\"42.0\",\"asked\":\"45.0\",\"code\":\"accepted\","
                                + "\"sentence\":\"the controller accepted it, and holds it\",\"bytes\":\"010600C8002D\","
                                + "\"readBack\":\"45.0\",\"memory\":17,\"ratchet\":3,\"before\":\"" + "0".repeat(64)
                                + "\",\"hash\":\"" + head.hash() + "\"}");
        assertThat(JsonLine.parse(line)).containsEntry("source", "mqtt boiler\nroom \"ü\"");
        assertThat(trail.head()).isEqualTo(head).isEqualTo(new AuditHead(1, head.hash()));
        assertThat(trail.memory()).isEqualTo(17);
        assertThat(trail.ratchet()).isEqualTo(3);
    }

    @Test
    void eachRecordHasTheHashOfTheOneBefore() throws IOException {
        AuditTrail trail = open();
        trail.record(admitted(1));
        clock.believe(false);
        clock.forward(Duration.ofMillis(1234));
        trail.record(admitted(2));
        List<AuditRecord> records = records();
        assertThat(records.get(1).before()).isEqualTo(records.get(0).hash());
        assertThat(records.get(1).sequence()).isEqualTo(2);
        assertThat(records.get(1).believed()).isFalse();
        assertThat(lines(disk, FIRST).get(1))
                .contains("\"at\":\"2026-11-25T08:00:01.484Z\",\"clock\":\"not-believed\"");
    }

    @Test
    void whatIsForcedIsOnTheDiskWithAllBeforeItAndTheHeadTellsNoMore() throws IOException {
        AuditTrail trail = open();
        trail.record(admitted(1));
        assertThat(trail.head()).isEqualTo(AuditHead.START);
        AuditHead second = trail.recordForced(admitted(2));
        trail.record(admitted(3));
        assertThat(trail.head()).isEqualTo(second);
        assertThat(lines(disk.forced(), FIRST)).hasSize(2);
        assertThat(new AuditVerifier(disk.forced()).against(second).verify().isWhole())
                .isTrue();
    }

    @Test
    void whatWasNotForcedIsAfterAMinute() throws IOException {
        AuditTrail trail = open();
        trail.record(admitted(1));
        long due = trail.step(clock.ticks());
        assertThat(due - clock.ticks()).isEqualTo(Duration.ofMinutes(1).toNanos());
        clock.forward(Duration.ofSeconds(59));
        assertThat(trail.step(clock.ticks())).isEqualTo(due);
        assertThat(trail.head()).isEqualTo(AuditHead.START);
        clock.forward(Duration.ofSeconds(1));
        trail.step(clock.ticks());
        assertThat(trail.head().sequence()).isEqualTo(1);
    }

    @Test
    void theChainGoesOnAfterARestart() throws IOException {
        open().recordForced(admitted(1).remembering(5, 6));
        AuditTrail again = open();
        assertThat(again.damage()).isEmpty();
        assertThat(again.head().sequence()).isEqualTo(1);
        assertThat(again.memory()).isEqualTo(5);
        assertThat(again.ratchet()).isEqualTo(6);
        again.recordForced(admitted(2));
        assertThat(kinds()).containsExactly("admitted", "admitted");
    }

    @Test
    void aTornLastLineIsCutOffAndThatIsRecorded() throws IOException {
        open().recordForced(admitted(1));
        byte[] whole = disk.look(FIRST);
        byte[] torn = Arrays.copyOf(whole, whole.length + 20);
        System.arraycopy("{\"sequence\":2,\"at\":\"2".getBytes(StandardCharsets.US_ASCII), 0, torn, whole.length, 20);
        disk.meddle(FIRST, torn);
        AuditTrail again = open();
        assertThat(again.damage()).isEmpty();
        List<AuditRecord> records = records();
        assertThat(records).hasSize(2);
        assertThat(records.get(1).kind()).isEqualTo("torn");
        assertThat(records.get(1).details())
                .containsEntry("file", FIRST)
                .hasEntrySatisfying("sentence", said -> assertThat(said).contains("its 20 bytes were cut off: {\"seq"));
        assertThat(again.head().sequence()).isEqualTo(2);
    }

    @Test
    void aFileThatIsTornFromItsFirstByteOnBeginsAgain() throws IOException {
        disk.meddle(FIRST, new byte[100]);
        open().recordForced(admitted(1));
        assertThat(kinds()).containsExactly("torn", "admitted");
    }

    @Test
    void aDamagedChainIsToldAndGoesOnInAFileOfItsOwnThatNamesTheDamage() throws IOException {
        AuditTrail trail = open();
        for (int i = 1; i <= 3; i++) {
            trail.recordForced(admitted(i));
        }
        String text = new String(disk.look(FIRST), StandardCharsets.UTF_8);
        byte[] damaged = text.replace("\"asked\":\"2\"", "\"asked\":\"9\"").getBytes(StandardCharsets.UTF_8);
        disk.meddle(FIRST, damaged);
        AuditTrail again = open();
        assertThat(again.damage())
                .containsExactly(FIRST + ":2: record 2 was changed: its text does not match its hash");
        again.recordForced(admitted(4));
        assertThat(disk.look(FIRST)).isEqualTo(damaged);
        List<AuditRecord> records = new ArrayList<>();
        AuditReport report = new AuditVerifier(disk).verify(records::add);
        assertThat(report.findings()).hasSize(1);
        assertThat(records.stream().map(AuditRecord::kind))
                .containsExactly("admitted", "admitted", "admitted", "continued", "damaged", "admitted");
        assertThat(records.get(4).details().get("sentence")).contains("record 2 was changed");

        AuditTrail third = open();
        assertThat(third.damage()).hasSize(1);
        third.recordForced(admitted(5));
        assertThat(lines(disk, SECOND)).as("it is not told twice").hasSize(4);
    }

    @Test
    void whatHasToBeToldWaitsForRoomAndComesFirst() throws IOException {
        open().recordForced(admitted(1));
        disk.meddle(FIRST, Arrays.copyOf(disk.look(FIRST), disk.look(FIRST).length + 3));
        disk.fill();
        AuditTrail again = open();
        assertThat(again.trouble()).isPresent();
        assertThatThrownBy(() -> again.recordForced(admitted(2))).isInstanceOf(IOException.class);
        disk.empty();
        again.recordForced(admitted(3));
        assertThat(kinds()).containsExactly("admitted", "torn", "admitted");
        assertThat(again.trouble()).isEmpty();
    }

    @Test
    void aFullFileIsFollowedByAnotherThatCarriesTheChainOn() throws IOException {
        AuditTrail trail = open(2048, 100);
        trail.recordForced(admitted(0).remembering(8, 9));
        for (int i = 1; i < 30; i++) {
            trail.record(admitted(i));
        }
        assertThat(disk.files().keySet()).hasSizeGreaterThan(4);
        assertThat(disk.files().values()).allMatch(content -> content.length <= 2048);
        Map<String, Object> first = Map.copyOf(Map.of("kind", "continued", "file", FIRST));
        assertThat(JsonLine.parse(lines(disk, SECOND).get(0))).containsAllEntriesOf(first);
        assertThat(kinds().stream().filter("admitted"::equals)).hasSize(30);
        AuditTrail again = open(2048, 100);
        assertThat(again.damage()).isEmpty();
        assertThat(again.memory()).isEqualTo(8);
        disk.meddle(FIRST, null);
        assertThat(open(2048, 100).memory())
                .as("carried on by the first record of each file")
                .isEqualTo(8);
    }

    @Test
    void aRecordThatIsLargerThanAFileHasOneForItself() throws IOException {
        AuditTrail trail = open(1024, 100);
        for (int i = 0; i < 5; i++) {
            trail.recordForced(admitted(i).from("x".repeat(5000)).said("\u0001".repeat(5000)));
        }
        assertThat(kinds()).filteredOn("admitted"::equals).hasSize(5);
        assertThat(disk.files().values()).allMatch(content -> content.length < 6000);
    }

    @Test
    void theOldestFileGoesAndTheChainSaysWithWhichHashItBeginsNow() throws IOException {
        AuditTrail trail = open(2048, 3);
        for (int i = 0; i < 60; i++) {
            trail.recordForced(admitted(i));
        }
        assertThat(disk.files()).hasSize(3).doesNotContainKeys(FIRST, SECOND);
        List<AuditRecord> records = records();
        assertThat(records.get(0).sequence()).isGreaterThan(10);
        assertThat(records.stream()
                        .filter(r -> r.kind().equals("dropped"))
                        .map(r -> r.details().get("remaining")))
                .contains(records.get(0).before());
        assertThat(open(2048, 3).damage()).isEmpty();
    }

    @Test
    void theOldestFileThatIsTakenAwayByAnyoneElseIsMissed() throws IOException {
        AuditTrail trail = open(2048, 3);
        for (int i = 0; i < 60; i++) {
            trail.recordForced(admitted(i));
        }
        disk.meddle(disk.files().keySet().iterator().next(), null);
        assertThat(open(2048, 3).damage()).singleElement().asString().contains("no record tells");
    }

    @Test
    void onAFullDiskNothingHalfWrittenStaysAndASilenceActionIsStillRecorded() throws IOException {
        AuditTrail trail = open();
        trail.recordForced(admitted(1));
        byte[] before = disk.look(FIRST);
        for (int room = 0; room < 300; room += 7) {
            disk.leaveRoomFor(room);
            assertThatThrownBy(() -> trail.recordForced(admitted(2)))
                    .isInstanceOf(IOException.class)
                    .hasMessageContaining("full");
            assertThat(disk.look(FIRST)).isEqualTo(before);
        }
        assertThat(trail.trouble()).isPresent();
        assertThat(trail.head().sequence()).isEqualTo(1);

        AuditEntry silence = AuditEntry.of(AuditKind.SILENCE).at(POINT).asked("20");
        for (int i = 0; i < 20; i++) {
            trail.recordAtAnyCost(silence);
        }
        assertThat(trail.head().sequence()).isEqualTo(21);
        assertThatThrownBy(() -> trail.recordForced(admitted(3)))
                .as("there is room, but it is kept for silence actions")
                .hasMessageContaining("full");
        disk.empty();
        trail.recordForced(admitted(4));
        assertThat(trail.head().sequence()).isEqualTo(22);
        assertThat(kinds()).filteredOn("silence"::equals).hasSize(20);
    }

    @Test
    void aDiskThatFailsAtAnyOperationCostsThatRecordAndNoOther() throws IOException {
        for (int at = 1; at < 40; at++) {
            ForgetfulDisk failing = new ForgetfulDisk(Seed.value() + at);
            AuditTrail trail = AuditTrail.open(failing, clock, new AuditRules(1500, 3, 60));
            List<String> recorded = new ArrayList<>();
            failing.failAt(at);
            int failures = 0;
            for (int i = 0; i < 12; i++) {
                try {
                    trail.recordForced(admitted(i));
                    recorded.add(Integer.toString(i));
                } catch (IOException e) {
                    failures++;
                }
            }
            assertThat(failures).isLessThanOrEqualTo(1);
            trail.close();
            List<AuditRecord> records = new ArrayList<>();
            assertThat(new AuditVerifier(failing)
                            .against(trail.head())
                            .verify(records::add)
                            .findings())
                    .as("failed at operation %d", at)
                    .isEmpty();
            List<String> kept = records.stream()
                    .filter(r -> r.kind().equals("admitted"))
                    .map(r -> r.details().get("asked"))
                    .toList();
            assertThat(recorded).as("failed at operation %d", at).endsWith(kept.toArray(String[]::new));
            assertThat(AuditTrail.open(failing, clock).damage()).isEmpty();
        }
    }

    @Test
    void aDiskThatFailsForAWhileIsPutRightWhenItWorksAgain() throws IOException {
        AuditTrail trail = open();
        trail.recordForced(admitted(1));
        disk.fill();
        disk.fail(true);
        for (int i = 0; i < 5; i++) {
            assertThatThrownBy(() -> trail.recordForced(admitted(2))).isInstanceOf(IOException.class);
            assertThatThrownBy(() -> trail.recordAtAnyCost(admitted(2))).isInstanceOf(IOException.class);
        }
        disk.fail(false);
        disk.empty();
        trail.recordForced(admitted(3));
        assertThat(records().stream().map(r -> r.details().get("asked"))).containsExactly("1", "3");
    }

    @Test
    void whereSomebodyAddsToTheFileOrCutsItNothingMoreIsRecordedAndNoForcedRecordIsLost() throws IOException {
        for (int change : new int[] {-1, 1, 500}) {
            ForgetfulDisk own = new ForgetfulDisk(Seed.value());
            AuditTrail trail = AuditTrail.open(own, clock);
            trail.recordForced(admitted(1));
            AuditHead head = trail.recordForced(admitted(2));
            byte[] content = own.look(FIRST);
            own.meddle(FIRST, Arrays.copyOf(content, content.length + change));
            byte[] changed = own.look(FIRST);
            assertThatThrownBy(() -> trail.recordForced(admitted(3))).hasMessageContaining("somebody has changed it");
            assertThatThrownBy(() -> trail.recordAtAnyCost(admitted(3)))
                    .hasMessageContaining("somebody has changed it");
            assertThat(own.look(FIRST)).isEqualTo(changed);
            if (change > 0) {
                AuditTrail again = AuditTrail.open(own, clock);
                again.recordForced(admitted(4));
                assertThat(new AuditVerifier(own).against(head).verify().findings())
                        .isEmpty();
            }
        }
    }

    @Test
    void aLongTextIsClippedSoThatALineStaysBounded() throws IOException {
        open().recordForced(AuditEntry.of(AuditKind.REFUSED).from("𝄞".repeat(10_000)));
        String source = records().get(0).details().get("source");
        assertThat(source).hasSizeLessThanOrEqualTo(AuditEntry.LONGEST_TEXT).endsWith("𝄞…");
    }

    @Test
    void charactersThatAreNoneBreakNoChain() throws IOException {
        AuditTrail trail = open();
        trail.recordForced(AuditEntry.of(AuditKind.REFUSED).from("half \uD834 of one"));
        trail.recordForced(admitted(1));
        assertThat(records().get(0).details().get("source")).isEqualTo("half ? of one");
    }

    @Test
    void aRecordIsPrintedOnOneLineThatDoesNothingToAScreen() throws IOException {
        open().recordForced(AuditEntry.of(AuditKind.REFUSED)
                .from("mqtt \u001b[2J\u202e\u2028x")
                .at(POINT)
                .previous("42.0")
                .asked("95")
                .decided("range", "95 is not within 20 to 90"));
        assertThat(records().get(0).print())
                .isEqualTo("      1 2026-11-25T08:00:00.250Z  refused        mqtt ?[2J??x               "
                        + "boiler-1.load-demand         42.0 -> 95  range: 95 is not within 20 to 90");
    }

    @Test
    void aHeadIsReadAsItIsWritten() {
        AuditHead head = new AuditHead(57, "ab".repeat(32));
        assertThat(AuditHead.parse(head.toString())).contains(head);
        assertThat(AuditHead.parse("57")).isEmpty();
        assertThat(AuditHead.parse("57:" + "AB".repeat(32))).isEmpty();
        assertThatThrownBy(() -> new AuditHead(-1, head.hash())).isInstanceOf(IllegalArgumentException.class);
    }
}
