package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.model.Stamp;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.store.Disk;
import burnerbridge.write.store.FolderDisk;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A chain that somebody has worked on: what is found, where, and what only a head from elsewhere can find. */
class AuditVerifierTest {
    private static final int RECORDS = 40;
    private static final int ROUNDS = 200;

    private final Random dice = new Random(Seed.value());
    private ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
    private AuditHead head = AuditHead.START;

    @BeforeEach
    void makeAChain() throws IOException {
        disk = new ForgetfulDisk(Seed.value());
        AuditTrail trail = AuditTrail.open(disk, new HandClock(), new AuditRules(4096, 100, 60));
        for (int i = 1; i <= RECORDS; i++) {
            head = trail.recordForced(entry(i));
        }
        assertThat(disk.files()).hasSizeGreaterThan(3);
    }

    private static AuditEntry entry(int i) {
        return AuditEntry.of(AuditKind.OUTCOME)
                .from("bridge")
                .at(new PointId(new Name("boiler-1"), new Name("load-demand")))
                .asked(Integer.toString(i))
                .decided("accepted", "the controller accepted it");
    }

    private List<String> files() {
        return List.copyOf(disk.files().keySet());
    }

    private List<String> lines(String file) {
        return new ArrayList<>(
                new String(disk.look(file), StandardCharsets.UTF_8).lines().toList());
    }

    private void put(String file, List<String> lines) {
        disk.meddle(
                file,
                lines.stream().map(l -> l + "\n").reduce("", String::concat).getBytes(StandardCharsets.UTF_8));
    }

    private List<String> found() throws IOException {
        return new AuditVerifier(disk)
                .verify().findings().stream().map(AuditFinding::toString).toList();
    }

    private List<String> foundWithHead() throws IOException {
        return new AuditVerifier(disk)
                .against(head).verify().findings().stream()
                        .map(AuditFinding::toString)
                        .toList();
    }

    private String anyFile() {
        return files().get(dice.nextInt(files().size()));
    }

    @Test
    void aChainThatNobodyTouchedIsWholeAndSaysWhatCannotBeSeen() throws IOException {
        AuditReport report = new AuditVerifier(disk).verify();
        assertThat(report.isWhole()).isTrue();
        assertThat(report.newest()).isEqualTo(head);
        assertThat(report.first()).isEqualTo(1);
        assertThat(report.records()).isEqualTo(head.sequence());
        assertThat(report.files()).isEqualTo(files().size());
        assertThat(report.notes()).singleElement().asString().contains("cannot be seen");
        assertThat(new AuditVerifier(disk).against(head).verify().notes()).isEmpty();
        assertThat(foundWithHead()).isEmpty();
    }

    @Test
    void anyByteThatWasChangedIsFoundInItsLine() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            byte[] content = disk.look(file);
            int at = dice.nextInt(content.length);
            content[at] ^= (byte) (1 << dice.nextInt(8));
            disk.meddle(file, content);
            int line = 1;
            for (int i = 0; i < at; i++) {
                line += disk.look(file)[i] == '\n' ? 1 : 0;
            }
            AuditReport report = new AuditVerifier(disk).verify();
            boolean tornEnd = at == content.length - 1 && file.equals(files().get(files().size() - 1));
            if (tornEnd) {
                assertThat(report.notes()).anyMatch(note -> note.contains("not whole"));
                assertThat(foundWithHead()).isNotEmpty();
            } else {
                int where = line;
                assertThat(report.findings())
                        .as("byte %d of %s", at, file)
                        .anyMatch(f -> f.file().equals(file) && (f.line() == where || f.line() == 0));
            }
        }
    }

    @Test
    void aRecordWithOtherWordsIsTheOnlyOneThatIsNamed() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            List<String> lines = lines(file);
            int at = dice.nextInt(lines.size());
            lines.set(at, lines.get(at).replace("\"clock\":\"believed\"", "\"clock\":\"not-believed\""));
            put(file, lines);
            assertThat(found())
                    .singleElement()
                    .asString()
                    .startsWith(file + ":" + (at + 1) + ": record ")
                    .endsWith(" was changed: its text does not match its hash");
        }
    }

    @Test
    void aRecordThatWasChangedWithItsHashMadeAnewIsFoundAtTheNextUnlessItIsTheLast() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            List<String> lines = lines(file);
            int at = dice.nextInt(lines.size());
            AuditRecord record = AuditRecord.parse(lines.get(at).getBytes(StandardCharsets.UTF_8));
            lines.set(at, forged(record.sequence(), record.before()));
            put(file, lines);
            if (record.sequence() == head.sequence()) {
                assertThat(found()).isEmpty();
                assertThat(foundWithHead()).singleElement().asString().contains("was written anew");
            } else {
                assertThat(found())
                        .singleElement()
                        .asString()
                        .contains("record " + (record.sequence() + 1) + " does not follow from record "
                                + record.sequence());
            }
        }
    }

    private static String forged(long sequence, String before) {
        byte[] line = AuditRecord.line(
                        new AuditHead(sequence - 1, before),
                        new Stamp(0, Instant.parse("2026-11-25T09:00:00Z"), true),
                        AuditEntry.of(AuditKind.OUTCOME).said("forged"))
                .bytes();
        return new String(line, StandardCharsets.UTF_8).strip();
    }

    @Test
    void recordsThatWereTakenOutAreNamedUnlessTheyAreTheLast() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            List<String> lines = lines(file);
            int first = dice.nextInt(lines.size());
            int count = 1 + dice.nextInt(lines.size() - first);
            long sequence = AuditRecord.parse(lines.get(first).getBytes(StandardCharsets.UTF_8))
                    .sequence();
            lines.subList(first, first + count).clear();
            put(file, lines);
            long last = sequence + count - 1;
            if (last == head.sequence()) {
                assertThat(found()).isEmpty();
                assertThat(foundWithHead()).singleElement().asString().contains(count + " records were cut off");
            } else {
                String gap = count == 1
                        ? "record " + sequence + " is missing"
                        : "records " + sequence + " to " + last + " are missing";
                assertThat(found()).singleElement().asString().contains(gap);
            }
        }
    }

    @Test
    void aRecordThatWasPutInIsFoundUnlessItIsAtTheEnd() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            List<String> lines = lines(file);
            int at = dice.nextInt(lines.size() + 1);
            boolean copy = at > 0 && dice.nextBoolean();
            AuditHead before = at == 0
                    ? new AuditHead(
                            AuditRecord.parse(lines.get(0).getBytes(StandardCharsets.UTF_8))
                                            .sequence()
                                    - 1,
                            AuditRecord.parse(lines.get(0).getBytes(StandardCharsets.UTF_8))
                                    .before())
                    : AuditRecord.parse(lines.get(at - 1).getBytes(StandardCharsets.UTF_8))
                            .head();
            lines.add(at, copy ? lines.get(dice.nextInt(at)) : forged(before.sequence() + 1, before.hash()));
            put(file, lines);
            if (before.sequence() == head.sequence() && !copy) {
                assertThat(found()).isEmpty();
                assertThat(foundWithHead())
                        .as("a head tells nothing of what stands behind it")
                        .isEmpty();
            } else {
                assertThat(found())
                        .as("line %d of %s, copy %s", at + 1, file, copy)
                        .isNotEmpty();
            }
        }
    }

    @Test
    void recordsThatChangedPlacesAreFound() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            makeAChain();
            String file = anyFile();
            List<String> lines = lines(file);
            if (lines.size() < 2) {
                continue;
            }
            int one = dice.nextInt(lines.size());
            int other = (one + 1 + dice.nextInt(lines.size() - 1)) % lines.size();
            Collections.swap(lines, one, other);
            put(file, lines);
            assertThat(found()).as("lines %d and %d of %s", one, other, file).isNotEmpty();
        }
    }

    @Test
    void filesThatChangedPlacesOrAreMissingAreFoundUnlessTheyAreTheLast() throws IOException {
        List<String> names = files();
        for (String name : names) {
            makeAChain();
            disk.meddle(name, null);
            if (name.equals(names.get(names.size() - 1))) {
                assertThat(found()).isEmpty();
                assertThat(foundWithHead()).singleElement().asString().contains("were cut off");
            } else {
                assertThat(found()).singleElement().asString().contains("missing");
            }
        }
        makeAChain();
        byte[] first = disk.look(names.get(0));
        disk.meddle(names.get(0), disk.look(names.get(1)));
        disk.meddle(names.get(1), first);
        assertThat(found()).isNotEmpty();
    }

    @Test
    void aChainThatWasWrittenAnewFromSomeRecordOnIsFoundByTheHeadAlone() throws IOException {
        for (int from = 1; from <= RECORDS; from += 7) {
            makeAChain();
            List<String> names = files();
            AuditHead before = AuditHead.START;
            boolean anew = false;
            for (String name : names) {
                List<String> lines = lines(name);
                for (int i = 0; i < lines.size(); i++) {
                    AuditRecord record = AuditRecord.parse(lines.get(i).getBytes(StandardCharsets.UTF_8));
                    anew |= record.sequence() >= from;
                    if (anew) {
                        lines.set(i, forged(before.sequence() + 1, before.hash()));
                    }
                    before = AuditRecord.parse(lines.get(i).getBytes(StandardCharsets.UTF_8))
                            .head();
                }
                put(name, lines);
            }
            assertThat(found())
                    .as("without a head it is a chain as good as any")
                    .isEmpty();
            assertThat(foundWithHead())
                    .singleElement()
                    .asString()
                    .contains("is not the one that was published as the head");
        }
    }

    @Test
    void aChainThatIsGoneAltogetherIsFoundByTheHeadAlone() throws IOException {
        files().forEach(file -> disk.meddle(file, null));
        assertThat(found()).isEmpty();
        assertThat(foundWithHead()).singleElement().asString().contains(head.sequence() + " records were cut off");
    }

    @Test
    void aHeadFromBeforeWhatIsKeptTellsNothingAndThatIsSaid() throws IOException {
        ForgetfulDisk small = new ForgetfulDisk(Seed.value());
        AuditTrail trail = AuditTrail.open(small, new HandClock(), new AuditRules(4096, 2, 60));
        AuditHead early = trail.recordForced(entry(1));
        for (int i = 2; i <= RECORDS * 2; i++) {
            trail.recordForced(entry(i));
        }
        AuditReport report =
                new AuditVerifier(small).against(early).against(trail.head()).verify();
        assertThat(report.findings()).isEmpty();
        assertThat(report.first()).isGreaterThan(1);
        assertThat(report.notes()).singleElement().asString().contains("older than what is kept");
    }

    @Test
    void aRecordThatWasPublishedAndThenTakenOutIsSaidToBeMissing() throws IOException {
        String file = files().get(1);
        List<String> lines = lines(file);
        AuditRecord out = AuditRecord.parse(lines.remove(1).getBytes(StandardCharsets.UTF_8));
        put(file, lines);
        assertThat(new AuditVerifier(disk).against(out.head()).verify().findings())
                .extracting(AuditFinding::toString)
                .anyMatch(found -> found.contains(
                        "record " + out.sequence() + ", which was published as the head, is" + " missing"));
    }

    @Test
    void findingsAreBoundedAndTheOthersCounted() throws IOException {
        disk.meddle(files().get(0), "no record\n".repeat(5_000).getBytes(StandardCharsets.UTF_8));
        AuditReport report = new AuditVerifier(disk).verify();
        assertThat(report.findings()).hasSize(AuditReport.MOST_FINDINGS);
        assertThat(report.more()).isGreaterThanOrEqualTo(5_000 - AuditReport.MOST_FINDINGS);
    }

    /** While it is written to, rotates and loses its oldest files, in a folder. */
    @Test
    @Timeout(60)
    void aChainThatGrowsMeanwhileIsNotTakenForADamagedOne(@TempDir Path folder) throws Exception {
        AuditRules rules = new AuditRules(16_384, 3, 60);
        AtomicBoolean done = new AtomicBoolean();
        List<Throwable> broken = Collections.synchronizedList(new ArrayList<>());
        Thread bridge = new Thread(() -> {
            try (FolderDisk own = new FolderDisk(folder.resolve("writes"), 0)) {
                AuditTrail trail = AuditTrail.open(own, new HandClock(), rules);
                for (int i = 0; !done.get(); i++) {
                    trail.record(entry(i));
                }
            } catch (IOException | RuntimeException e) {
                broken.add(e);
            }
        });
        bridge.start();
        Disk other = new FolderDisk(folder.resolve("writes"), 0);
        long newest = 0;
        for (int i = 0; i < 60 || (newest < 2_000 && broken.isEmpty()); i++) {
            AuditReport report = new AuditVerifier(other).verify();
            assertThat(report.findings()).isEmpty();
            assertThat(report.newest().sequence()).isGreaterThanOrEqualTo(newest);
            newest = report.newest().sequence();
        }
        done.set(true);
        bridge.join();
        assertThat(broken).isEmpty();
    }
}
