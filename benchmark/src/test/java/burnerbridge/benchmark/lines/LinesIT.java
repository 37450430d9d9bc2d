package burnerbridge.benchmark.lines;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class LinesIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    @Test
    void aShortRunOfTheRealDaemonIsMeasured() {
        StringWriter out = new StringWriter();
        int exitCode = new CommandLine(new LinesCommand())
                .setOut(new PrintWriter(out))
                .execute(
                        "--lines",
                        "3",
                        "--points",
                        "2",
                        "--reads",
                        "1,2",
                        "--rounds",
                        "1",
                        "--warm",
                        "0",
                        "--seconds",
                        "2",
                        "--class-path",
                        CLASS_PATH);
        assertThat(exitCode).isZero();
        List<String> rows = out.toString().lines().filter(LinesIT::isRun).toList();
        assertThat(rows).isNotEmpty();
        assertThat(rows.get(0)).contains("| 3 |");
        assertThat(rows.get(rows.size() - 1)).contains("| 6 |");
    }

    private static boolean isRun(String row) {
        return row.matches("\\| \\S+, (platform|virtual) \\|( [\\d., ]+ \\|)+");
    }
}
