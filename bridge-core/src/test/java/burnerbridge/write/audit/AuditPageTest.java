package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.store.ForgetfulDisk;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the page on the audit shows is what the program writes. */
class AuditPageTest {
    static final Path PAGE = Path.of("..", "docs", "audit.md");

    static List<String> page() throws IOException {
        return Files.readAllLines(PAGE);
    }

    /** The lines of the one block of a kind. */
    static List<String> block(String kind) throws IOException {
        List<String> lines = page();
        int begin = lines.indexOf("```" + kind) + 1;
        assertThat(begin).as("a block of kind %s", kind).isPositive();
        return lines.subList(begin, begin + lines.subList(begin, lines.size()).indexOf("```"));
    }

    @Test
    void theWorkedRecordIsOneThatTheProgramWrites() throws IOException {
        ForgetfulDisk disk = new ForgetfulDisk(Seed.value());
        AuditTrail.open(disk, new HandClock())
                .recordForced(AuditEntry.of(AuditKind.OUTCOME)
                        .from("bacnet 192.0.2.7:47808")
                        .at(new PointId(new Name("boiler-1"), new Name("load-demand")))
                        .previous("42.0")
                        .asked("45.0")
                        .decided("accepted", "the controller accepted it and holds it")
                        .bytes(HexFormat.of().parseHex("010600c801c2"))
                        .readBack("45.0"));
        assertThat(block("json"))
                .containsExactly(new String(disk.look("audit-000001.jsonl"), StandardCharsets.UTF_8).strip());
    }

    @Test
    void everyKindAndEveryMemberIsOnThePage() throws IOException {
        List<String> page = page();
        for (AuditKind kind : AuditKind.values()) {
            assertThat(page).as(kind.word()).anyMatch(line -> line.startsWith("| `" + kind.word() + "` |"));
        }
        for (Detail detail : Detail.values()) {
            assertThat(page)
                    .as(detail.word())
                    .anyMatch(line -> line.startsWith("| ") && line.contains("`" + detail.word() + "`"));
        }
        assertThat(Arrays.stream(AuditKind.values()).map(AuditKind::word))
                .allMatch(word -> AuditKind.ofWord(word).isPresent());
    }

    @Test
    void theNumbersOnThePageAreThoseOfTheProgram() throws IOException {
        String page = String.join("\n", page());
        assertThat(page)
                .contains("after " + (AuditRules.USUAL.fileSize() >> 20) + " MiB")
                .contains("the newest " + AuditRules.USUAL.files() + " files")
                .contains("at most " + AuditRules.USUAL.refusals() + " records of refusals a minute")
                .contains("more than " + AuditEntry.LONGEST_TEXT + " characters");
    }
}
