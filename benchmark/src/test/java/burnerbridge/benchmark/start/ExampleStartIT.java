package burnerbridge.benchmark.start;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class ExampleStartIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    @Test
    void aShortRunStartsTheDaemonBesideItsPlantAndSeesGoodValuesOnBothSides() {
        OutsideProgram.require("mosquitto_sub", "mosquitto mosquitto-clients");
        StringWriter out = new StringWriter();

        int exitCode = new CommandLine(new StartCommand())
                .setOut(new PrintWriter(out))
                .execute(
                        "--starts=1",
                        "--settle=1",
                        "--flags=HEAP",
                        "--site=../config/examples/quillmere",
                        "--class-path=" + CLASS_PATH);

        assertThat(exitCode).as(out.toString()).isZero();
        assertThat(out.toString())
                .containsPattern("\\| [\\d.]+, -Xmx64m \\|( [1-9]\\d* \\(\\d+\\.\\.\\d+\\) \\|){3}( [1-9]\\d* \\|){3}");
    }
}
