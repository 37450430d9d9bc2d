package burnerbridge.benchmark.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.benchmark.bacnet.hostile.HostileCommand;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class HostileIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    @Test
    void aShortRunAsksAndAttacks() {
        StringWriter out = new StringWriter();

        int exitCode = new CommandLine(new HostileCommand())
                .setOut(new PrintWriter(out))
                .execute(
                        "--objects=50",
                        "--seconds=2",
                        "--quiet=1",
                        "--warm=0",
                        "--asks=50",
                        "--flood=1000",
                        "--mutations=200",
                        "--heap=64m",
                        "--class-path=" + CLASS_PATH);

        assertThat(exitCode).as(out.toString()).isZero();
        assertThat(out.toString())
                .containsPattern("\\| before \\| [1-9]\\d* \\|")
                .containsPattern("\\| hostile, second half \\| [1-9]\\d* \\|")
                .containsPattern("Sent: subscriptions [1-9]\\d*, flood [1-9]\\d*, mutations [1-9]\\d*")
                .containsPattern("The device: subscriptions \\d+, .* octets in use [1-9]")
                .contains("p99 while hostile to p99 while quiet: ");
    }
}
