package burnerbridge.benchmark.start;

import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.Program;
import java.io.File;
import java.util.Arrays;

/** The simulated plant as this process sees it. */
public final class PlantProcess implements AutoCloseable {
    private final Program program;
    private final int[] ports;

    private PlantProcess(Program program) {
        this.program = program;
        this.ports = Arrays.stream(program.line().split(" ", -1))
                .mapToInt(Integer::parseInt)
                .toArray();
    }

    public static PlantProcess start() {
        return new PlantProcess(Program.start(
                JavaProgram.OWN,
                // Where it stands among other jars, more than one of them says how to log.
                "-Dlogback.statusListenerClass=ch.qos.logback.core.status.NopStatusListener",
                "-cp",
                System.getProperty("burnerbridge.field-device", "")
                        + File.pathSeparator
                        + System.getProperty("java.class.path"),
                PlantMain.class.getName()));
    }

    int boilerHouse() {
        return ports[0];
    }

    int annex() {
        return ports[1];
    }

    @Override
    public void close() {
        program.close();
    }
}
