package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.program.Program;

/** The server that both sides ask: unit 1 on libmodbus, in a process of its own. */
final class FieldDevice implements AutoCloseable {
    /** What its first holding register holds; each further one holds one more. */
    static final int FIRST_VALUE = 0x1100;

    private final Program program;
    private final String[] ready;

    private FieldDevice(Program program) {
        this.program = program;
        this.ready = program.line().split(" ", 3);
    }

    static FieldDevice onTcp(String server) {
        return new FieldDevice(Program.start(server, "tcp"));
    }

    static FieldDevice onSerial(String server, String port) {
        return new FieldDevice(Program.start(server, "rtu", port));
    }

    int port() {
        return Integer.parseInt(ready[1]);
    }

    /** The library and its version. */
    String library() {
        return ready[2];
    }

    @Override
    public void close() {
        program.close();
    }
}
