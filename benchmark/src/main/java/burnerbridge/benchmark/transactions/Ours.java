package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Lines;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.time.Duration;
import org.jspecify.annotations.Nullable;

/** The bridge's own transport, in this process and on the caller's thread. */
final class Ours implements Side {
    private static final Name LINE = new Name("measured");
    private static final UnitId UNIT = new UnitId(1);
    /** As long as the reference has: a machine that is busy with other things must not end the run. */
    private static final Duration PATIENCE = Duration.ofSeconds(5);

    private final LineDefinition line;
    private final MachineClock clock;
    private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    private @Nullable LineTransport transport;

    Ours(LineDefinition.Endpoint endpoint, MachineClock clock) {
        this.line = new LineDefinition(LINE, endpoint, PATIENCE, PATIENCE);
        this.clock = clock;
    }

    @Override
    public Round read(Asked asked) {
        LineTransport open = connected();
        ReadRequest request = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 0, asked.registers());
        for (int i = 0; i < asked.warm(); i++) {
            timed(open, request, asked.pause());
        }
        long[] nanos = new long[asked.reads()];
        Duration processBefore = processTime();
        long threadBefore = threads.getCurrentThreadCpuTime();
        for (int i = 0; i < nanos.length; i++) {
            nanos[i] = timed(open, request, asked.pause());
        }
        Duration threadTime = Duration.ofNanos(threads.getCurrentThreadCpuTime() - threadBefore);
        return new Round(nanos, threadTime, processTime().minus(processBefore));
    }

    private LineTransport connected() {
        LineTransport open = transport;
        if (open == null) {
            open = Lines.transport(line, clock);
            transport = open;
        }
        return open;
    }

    private long timed(LineTransport open, ReadRequest request, Duration pause) {
        clock.pause(pause);
        long begin = clock.ticks();
        Outcome outcome = open.read(request);
        long took = clock.ticks() - begin;
        requireValues(outcome, request.count());
        return took;
    }

    private static void requireValues(Outcome outcome, int count) {
        if (!(outcome instanceof Outcome.Answered answered)) {
            throw new IllegalStateException("a read failed: " + outcome);
        }
        Registers data = answered.data();
        for (int i = 0; i < count; i++) {
            if (data.word(i) != FieldDevice.FIRST_VALUE + i) {
                throw new IllegalStateException("register " + i + " held " + data.word(i));
            }
        }
    }

    private static Duration processTime() {
        return ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO);
    }

    @Override
    public void disconnect() {
        if (transport != null) {
            transport.close();
            transport = null;
        }
    }

    @Override
    public void close() {
        disconnect();
    }
}
