package burnerbridge.benchmark.micro;

import burnerbridge.benchmark.lines.Load;
import burnerbridge.benchmark.lines.Plant;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Lines;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One strict transaction over TCP, encoding and checks included, with a plant in the same process. For
 * what it allocates ({@code -prof gc}) and for comparing versions; beside others it is measured by
 * {@code transactions}.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class TransactionBenchmark {
    @Param({"1", "10", "125"})
    private int registers = 1;

    private final MachineClock clock = new MachineClock();
    private @Nullable Plant plant;

    @SuppressWarnings("NullAway.Init")
    private LineTransport transport;

    @SuppressWarnings("NullAway.Init")
    private ReadRequest request;

    @Setup
    public void open() throws IOException {
        Plant opened = Plant.open(new Load(1, 1, 1), clock);
        plant = opened;
        LineDefinition line = new LineDefinition(
                new Name("measured"),
                new LineDefinition.Tcp("127.0.0.1", opened.ports().get(0)),
                Duration.ofSeconds(1),
                Duration.ofSeconds(3));
        transport = Lines.transport(line, clock);
        request = new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 0, registers);
    }

    @TearDown
    public void close() {
        transport.close();
        if (plant != null) {
            plant.close();
        }
    }

    /** A read that fails ends the benchmark: it would be measured for nothing. */
    @Benchmark
    public Outcome.Answered read() {
        Outcome outcome = transport.read(request);
        if (outcome instanceof Outcome.Answered answered) {
            return answered;
        }
        throw new IllegalStateException("a read failed: " + outcome);
    }
}
