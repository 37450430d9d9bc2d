package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.program.Program;
import java.time.Duration;
import java.util.Arrays;

/** The client in C, a process that lives through all rounds. It connects for each. */
final class Reference implements Side {
    private final Program program;

    private Reference(Program program) {
        this.program = program;
    }

    static Reference onTcp(String client, int port) {
        return new Reference(Program.start(client, "tcp", Integer.toString(port)));
    }

    static Reference onSerial(String client, String port) {
        return new Reference(Program.start(client, "rtu", port));
    }

    @Override
    public Round read(Asked asked) {
        program.tell(asked.registers() + " " + asked.warm() + " " + asked.reads() + " "
                + asked.pause().toNanos());
        long[] said = Arrays.stream(program.line().split(" "))
                .mapToLong(Long::parseLong)
                .toArray();
        Duration used = Duration.ofNanos(said[0]);
        return new Round(Arrays.copyOfRange(said, 1, said.length), used, used);
    }

    @Override
    public void disconnect() {
        // It has, at the end of its round.
    }

    @Override
    public void close() {
        program.close();
    }
}
