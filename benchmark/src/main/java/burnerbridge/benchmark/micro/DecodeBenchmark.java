package burnerbridge.benchmark.micro;

import burnerbridge.benchmark.lines.GeneratedSite;
import burnerbridge.benchmark.lines.Load;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.TemporaryFolder;
import burnerbridge.config.SiteFolder;
import burnerbridge.decode.Decoder;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.SitePoint;
import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** From the registers of a block of 125 scaled points to their readings. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class DecodeBenchmark {
    private static final int POINTS = 125;

    private final Registers block =
            Registers.of(IntStream.range(0, POINTS).map(i -> 17 * i).toArray());
    private final Stamp askedAt = new MachineClock().now();
    private List<SitePoint> points = List.of();

    /** By the road of every site: a folder that is loaded. */
    @Setup
    public void load() throws IOException {
        try (TemporaryFolder folder = TemporaryFolder.create()) {
            GeneratedSite.write(folder.path(), new Load(1, POINTS, 1), List.of(502));
            points = SiteFolder.load(folder.path()).site().orElseThrow().points();
        }
    }

    @Benchmark
    public void block(Blackhole readings) {
        for (int i = 0; i < POINTS; i++) {
            readings.consume(
                    Decoder.decode(points.get(i).definition(), block.slice(i, 1), askedAt, Reading.notReadYet()));
        }
    }
}
