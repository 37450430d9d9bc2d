package burnerbridge.benchmark.pace;

import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.Program;
import java.io.File;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** The simulator's field device on a serial port, a process of its own, at the rate of a wire. */
public final class PacedDevice implements AutoCloseable {
    private static final String MAIN = "burnerbridge.simulator.bench.Bench";
    /** What its unit 1 holds at address 0; each further holding register holds one more. */
    static final int FIRST_VALUE = 1000;

    private final Program program;

    private PacedDevice(Program program) {
        this.program = program;
        program.line();
    }

    /** @param units from 1 on */
    public static PacedDevice start(Wire wire, int turnaround, int units, String port) {
        List<String> command = List.of(
                JavaProgram.OWN,
                "-DjSerialComm.library.path=" + System.getProperty("jSerialComm.library.path", ""),
                // Where it stands among other jars, more than one of them says how to log.
                "-Dlogback.statusListenerClass=ch.qos.logback.core.status.NopStatusListener",
                "-cp",
                System.getProperty("burnerbridge.field-device", "")
                        + File.pathSeparator
                        + System.getProperty("java.class.path"),
                MAIN,
                "--serial=" + port,
                "--baud=" + wire.baud(),
                "--bits=" + Wire.BITS,
                "--turnaround=" + turnaround,
                "--unit="
                        + IntStream.rangeClosed(1, units)
                                .mapToObj(Integer::toString)
                                .collect(Collectors.joining(",")));
        return new PacedDevice(Program.start(command.toArray(new String[0])));
    }

    /** How it is to behave from its next request on. */
    public void obey(String order) {
        program.tell(order);
        String answer = program.line();
        if (!answer.endsWith(": " + order)) {
            throw new IllegalStateException(answer);
        }
    }

    @Override
    public void close() {
        program.close();
    }
}
