package burnerbridge.benchmark.pace;

import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.program.Program;
import java.util.Arrays;

/** A client in C on libmodbus, which knows nothing of paces: what it waits for is what the line takes. */
final class IndependentMaster implements AutoCloseable {
    private final Program program;

    IndependentMaster(String client, Wire wire, String port) {
        program = Program.start(
                client,
                "rtu",
                port,
                Integer.toString(wire.baud()),
                Integer.toString(Wire.STOP_BITS),
                Integer.toString(PacedDevice.FIRST_VALUE));
    }

    /** How long each of some reads takes, in milliseconds. */
    Spread millis(int registers, int reads) {
        program.tell(registers + " 1 " + reads + " 20000000");
        long[] said = Arrays.stream(program.line().split(" "))
                .mapToLong(Long::parseLong)
                .toArray();
        return Spread.of(Arrays.copyOfRange(said, 1, said.length)).times(1e-6);
    }

    @Override
    public void close() {
        program.close();
    }
}
