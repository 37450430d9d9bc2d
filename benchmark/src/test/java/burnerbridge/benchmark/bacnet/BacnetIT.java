package burnerbridge.benchmark.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class BacnetIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    @Test
    void aShortRunMeasuresBothSides() {
        StringWriter out = new StringWriter();

        int exitCode = new CommandLine(new BacnetCommand())
                .setOut(new PrintWriter(out))
                .execute(
                        "--objects=30",
                        "--at-once=1,4",
                        "--rounds=1",
                        "--warm=0",
                        "--millis=20",
                        "--single=5",
                        "--starts=1",
                        "--heap=64m",
                        "--class-path=" + CLASS_PATH);

        assertThat(exitCode).as(out.toString()).isZero();
        assertThat(out.toString())
                .containsPattern("\\| 30 \\| ReadProperty \\| 1 \\| ours \\| [1-9]")
                .containsPattern("\\| 30 \\| ReadPropertyMultiple of 20 \\| 4 \\| the library alone \\| [1-9]")
                .containsPattern("\\| 30 \\| unconfirmed \\| ours \\| .* \\| 30 of 30 \\|")
                .containsPattern("\\| 30 \\| confirmed \\| ours \\| .* \\| 30 of 30 \\|")
                .containsPattern("\\| 30 \\| the library alone \\| [1-9]\\d* ");
    }
}
