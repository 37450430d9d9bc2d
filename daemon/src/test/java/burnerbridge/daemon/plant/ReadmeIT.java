package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every command that the README's table shows, typed as it stands there, with each of the options that its row names;
 * but for {@code demo}, which the build runs as a person would. SITE is a copy of the example site beside its plant.
 */
class ReadmeIT {
    private static final Duration LONGEST = Duration.ofMinutes(3);
    private static final Pattern ROW = Pattern.compile("(?m)^\\| `\\./burner-bridge ([^`]+)` \\| (.*) \\|$");
    private static final Pattern OPTION = Pattern.compile("`(--[a-z]+)`");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    @BeforeEach
    void start() throws IOException {
        OutsideProgram.requirePython("openpyxl", "python3-openpyxl");
        frozen = new FrozenPlant();
        frozen.siteForAll(folder.resolve("site"), FreePorts.tcp(), FreePorts.udp());
    }

    @AfterEach
    void end() {
        frozen.close();
    }

    @Test
    void everyCommandOfTheTableDoesWhatItIsFor() throws IOException {
        List<MatchResult> rows = ROW.matcher(Files.readString(Path.of("..", "README.md")))
                .results()
                .toList();
        List<String> verbs = new ArrayList<>();
        for (MatchResult row : rows) {
            String verb = row.group(1).split(" ")[0];
            verbs.add(verb);
            if (verb.equals("run")) {
                runs(row.group(1));
            } else if (!verb.equals("demo") && !verb.equals("explain")) {
                does(row.group(1), row.group(2));
            }
        }
        assertThat(verbs)
                .contains("demo", "check", "values", "explain", "documents", "from-spreadsheet", "schema", "run");
    }

    private void does(String command, String description) throws IOException {
        List<String> options = new ArrayList<>(List.of(""));
        if (command.startsWith("values ")) {
            // Without one it is live until Ctrl-C: ValuesCommand's own tests watch that.
            options.clear();
            OPTION.matcher(description).results().forEach(option -> options.add(" " + option.group(1)));
            options.replaceAll(option -> option.equals(" --once") ? option : " --once" + option);
        }
        for (String option : options) {
            try (Program program = type(command + option)) {
                // Points that are rightly not good are a warning, and so is a title above a sheet's header.
                boolean mayWarn = command.startsWith("values ") || command.startsWith("from-spreadsheet ");
                assertThat(program.awaitEnd())
                        .as(command + option + ": " + program.said())
                        .isIn(0, mayWarn ? 1 : 0);
                assertThat(program.said()).as(command + option).isNotBlank();
            }
        }
    }

    private void runs(String command) throws IOException {
        try (Program bridge = type(command)) {
            Awaitility.await().atMost(LONGEST).until(() -> bridge.said().contains("control socket "));
            try (Program explain = type("explain SITE")) {
                // What is wrong so soon after the start is another matter.
                assertThat(explain.awaitEnd()).as(explain.said()).isIn(0, 1);
                assertThat(explain.said()).contains("from the running bridge");
            }
            assertThat(bridge.end()).as(bridge.said()).isZero();
        }
    }

    private Program type(String command) throws IOException {
        List<String> words = PackagedProgram.command();
        for (String word : command.split(" ")) {
            words.add(here(word));
        }
        if (command.matches("(values|run|explain) .*")) {
            words.addAll(List.of("--state", folder.resolve("state").toString()));
        }
        return Program.start(Files.createTempFile(folder, "said", ""), words);
    }

    private String here(String word) throws IOException {
        return switch (word) {
            case "SITE" -> folder.resolve("site").toString();
            case "FOLDER" -> folder.resolve("documents").toString();
            case "LIST.xlsx" -> workbook().toString();
            default -> word;
        };
    }

    /** A register list typed into a spreadsheet, written by another library than the one that reads it. */
    private Path workbook() throws IOException {
        Path script = OutsideProgram.file("workbooks.py");
        try (Program writer = Program.start(
                folder.resolve("workbooks"), List.of(OutsideProgram.PYTHON, script.toString(), folder.toString()))) {
            assertThat(writer.awaitEnd()).as(writer.said()).isZero();
        }
        return folder.resolve("typed.xlsx");
    }
}
