package burnerbridge.benchmark.all;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.benchmark.Main;
import burnerbridge.benchmark.program.JavaProgram;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class AllIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Path page;

    @BeforeEach
    void writePage() throws IOException {
        page = folder.resolve("page.md");
        Files.write(page, List.of("# Measured", MarkedPlace.BEGIN, "old", MarkedPlace.END, "The end."));
    }

    @Test
    void twoMeasurementsRunInTurnAndTheirTableIsPutIntoAPage() throws IOException {
        int exitCode = all(measuring(), "--moment", "--only=lines,bacnet", "--into=" + page);

        assertThat(exitCode).as(told()).isZero();
        assertThat(Files.readAllLines(page))
                .startsWith("# Measured", MarkedPlace.BEGIN)
                .endsWith(MarkedPlace.END, "The end.")
                .doesNotContain("old")
                .anyMatch(line -> line.startsWith("`benchmark/run all --moment --only lines,bacnet`, begun "))
                .anyMatch(line -> line.matches("\\| lines \\| 3 lines of 2 points by 1 read, .*: processor time, .*"))
                .anyMatch(line -> line.matches("\\| bacnet \\| 30 objects: ReadProperty, 1 at once, a second \\| [^|]+"
                        + "\\| once \\| the library alone: [^|]+\\| [^|]+\\|  \\|"))
                .anyMatch(line -> line.matches("\\| lines \\| `[^|]+` \\|( [\\d.]+ \\|){3} well \\|"))
                .anyMatch(line -> line.matches("\\| bacnet \\| `[^|]+` \\|( [\\d.]+ \\|){3} well \\|"));
    }

    @Test
    void oneThatFailsDoesNotKeepTheOthers() throws IOException {
        Path starter = starter("""
                case "$1" in
                  pace) echo begun; exit 5 ;;
                  mqtt) exit 0 ;;
                esac
                for last in "$@"; do :; done
                {
                  echo run,what,unit,median,low,high,spread,reference,reference-median,aim
                  echo '"loss","a gap","ms",7.0,,,"once","",,""'
                } >"$last"
                """);
        Path table = folder.resolve("table.md");

        int exitCode = all(starter, "--short", "--only=pace,loss,mqtt", "--to=" + table);

        assertThat(exitCode).as(told()).isEqualTo(3);
        assertThat(told()).contains("begun", "pace: ended with exit code 5; the others go on");
        assertThat(Files.readAllLines(table))
                .contains("| loss | a gap, ms | 7.00 | once |  |  |  |")
                .anyMatch(line -> line.startsWith("| pace | ") && line.endsWith("| **ended with exit code 5** |"))
                .anyMatch(line -> line.startsWith("| mqtt | ") && line.endsWith("| **left no figures** |"));
    }

    @Test
    void aWrongNameOrPageIsToldBeforeAnythingIsMeasured() throws IOException {
        Path starter = starter("echo measured");

        assertThat(all(starter, "--only=tea")).isEqualTo(2);
        assertThat(all(starter, "--into=" + folder.resolve("none.md"))).isEqualTo(2);

        assertThat(err.toString())
                .contains("--only: must be one of transactions, lines, ", " (was tea)")
                .contains("--into: " + folder.resolve("none.md") + ": there is no such file");
        assertThat(out.toString()).doesNotContain("measured");
    }

    private int all(Path starter, String... arguments) {
        CommandLine command = Main.commands().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
        String[] call = new String[arguments.length + 2];
        call[0] = "all";
        call[1] = "--starter=" + starter;
        System.arraycopy(arguments, 0, call, 2, arguments.length);
        return command.execute(call);
    }

    private String told() {
        return out + "\n" + err;
    }

    /** As {@code benchmark/run} starts them, from what the tests have built. */
    private Path measuring() throws IOException {
        return starter("exec '" + JavaProgram.OWN + "' -cp '" + CLASS_PATH + "' burnerbridge.benchmark.Main \"$@\"");
    }

    private Path starter(String script) throws IOException {
        Path file = Files.writeString(folder.resolve("starter"), "#!/bin/sh\n" + script + "\n");
        return Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwx------"));
    }
}
