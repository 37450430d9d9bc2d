package burnerbridge.benchmark.memory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import burnerbridge.outside.OutsideProgram;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class MemoryIT {
    /** What the test runner puts aside when it hands the class path on in a jar. */
    private static final String CLASS_PATH =
            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));

    private final StringWriter said = new StringWriter();

    @BeforeAll
    static void requireAll() {
        OutsideProgram.require("mosquitto_sub", "mosquitto mosquitto-clients");
        // Nothing that could be installed: within a container the kernel often keeps groups from it.
        assumeTrue(MemoryBound.canBeMade(), "this machine lets us make no control group of memory");
    }

    private int run(String... more) {
        CommandLine command = new CommandLine(new MemoryCommand()).setOut(new PrintWriter(said));
        command.setErr(new PrintWriter(said));
        String[] call = new String[more.length + 7];
        call[0] = "--controllers=3";
        call[1] = "--points=5";
        call[2] = "--every=1";
        call[3] = "--rounds=1";
        call[4] = "--seconds=1";
        call[5] = "--site=../config/examples/quillmere";
        call[6] = "--class-path=" + CLASS_PATH;
        System.arraycopy(more, 0, call, 7, more.length);
        return command.execute(call);
    }

    @Test
    void aShortRunHoldsWithinItsLimitsAndTellsWhatItTakesWithoutThem() {
        assertThat(run()).as(said.toString()).isZero();
        assertThat(said.toString())
                .containsPattern("\\| [\\d.]+, the example site \\| 160 MB \\|( [\\d.]+ \\|){4}")
                .containsPattern("\\| [\\d.]+, 15 points of 3 controllers \\| 512 MB \\|( [\\d.]+ \\|){4}")
                .containsPattern("\\| [\\d.]+, 15 points of 3 controllers \\| no limit \\|( [\\d.]+ \\|){4}");
    }

    @Test
    void aLimitThatDoesNotHoldIsToldAndNotMeasured() {
        assertThat(run("--demo-limit=40", "--options=-XX:MinRAMPercentage=90")).isNotZero();
        assertThat(said.toString()).contains("the kernel ended 1 processes for want of memory");
    }
}
