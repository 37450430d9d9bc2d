package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage;
import burnerbridge.daemon.outside.Program;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page on writing: its permit is one that the program takes, and its commands do what it says of them. */
class WritingGuideIT {
    private static final Pattern NO_PERMIT = Pattern.compile("(?m)^write-permits: \\[\\].*$");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    @BeforeEach
    void start() throws IOException {
        frozen = new FrozenPlant();
        Path yaml = frozen.site(folder.resolve("site")).resolve("site.yaml");
        String text = Files.readString(yaml);
        assertThat(text).containsPattern(NO_PERMIT);
        Files.writeString(yaml, NO_PERMIT.matcher(text).replaceFirst(block("yaml")));
    }

    @AfterEach
    void end() {
        frozen.close();
    }

    private static String block(String kind) throws IOException {
        return new GuidePage("writing.md")
                .blocks().stream()
                        .filter(block -> block.kind().equals(kind))
                        .findFirst()
                        .map(block -> String.join("\n", block.lines()) + "\n")
                        .orElseThrow();
    }

    @Test
    void thePermitIsTakenAndThePersonApprovesAndWithdraws() throws IOException {
        List<String> commands = new ArrayList<>(List.of(block("sh").strip().split("\n")));
        assertThat(commands).hasSize(3);
        says(commands.get(0), 1, "Not approved, so that the bridge only reads: no person has approved it yet");
        says(commands.get(1), 0, "Approved by name of the person");
        says(commands.get(0), 0, "Approved: the bridge may write this and nothing else.");
        says(commands.get(2), 0, "Withdrawn by name of the person");
        says(commands.get(0), 1, "name of the person has withdrawn the approval");
        says("burner-bridge permits SITE --audit", 0, "Nothing is wrong, as far as can be seen.");
    }

    private void says(String command, int code, String sentence) throws IOException {
        List<String> words = PackagedProgram.command();
        for (String word : command.replaceFirst("^burner-bridge ", "").split(" (?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)")) {
            words.add(word.equals("SITE") ? folder.resolve("site").toString() : word.replace("\"", ""));
        }
        words.addAll(List.of("--state", folder.resolve("state").toString()));
        try (Program program = Program.start(Files.createTempFile(folder, "said", ""), words)) {
            assertThat(program.awaitEnd()).as(command + ": " + program.said()).isEqualTo(code);
            assertThat(program.said()).as(command).contains(sentence);
        }
    }
}
