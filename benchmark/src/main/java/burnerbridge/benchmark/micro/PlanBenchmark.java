package burnerbridge.benchmark.micro;

import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.Turnarounds;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
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
import org.openjdk.jmh.annotations.Warmup;

/**
 * The plan of one controller on a serial line. Its registers lie side by side, which is the most work: every
 * read that ends at a point could begin at any of the 124 before it.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(2)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class PlanBenchmark {
    private static final LineDefinition LINE = new LineDefinition(
            new Name("planned"),
            new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 19_200),
            Duration.ofMillis(500),
            Duration.ofSeconds(3));

    @Param({"100", "1000", "10000"})
    private int points = 100;

    private List<SitePoint> alike = List.of();
    private List<SitePoint> mixed = List.of();

    @Setup
    public void make() {
        alike = points(i -> Duration.ofSeconds(1));
        mixed = points(i -> Duration.ofSeconds(i % 7 == 0 ? 1 : i % 3 == 0 ? 10 : 3600));
    }

    /** Of points of one interval. */
    @Benchmark
    public LinePlan oneInterval() {
        return LinePlan.of(LINE, alike, Turnarounds.ASSUMED);
    }

    /** Of points of three intervals among each other. */
    @Benchmark
    public LinePlan threeIntervals() {
        return LinePlan.of(LINE, mixed, Turnarounds.ASSUMED);
    }

    /** What the plan will take, the dearest rows included. */
    @Benchmark
    public List<Prediction.RowCost> dearestRows() {
        return Prediction.of(LinePlan.of(LINE, mixed, Turnarounds.ASSUMED)).dearest(10);
    }

    private interface Intervals {
        Duration of(int point);
    }

    private List<SitePoint> points(Intervals intervals) {
        List<PointDefinition> rows = IntStream.range(0, points)
                .mapToObj(i -> row(i, intervals.of(i)))
                .toList();
        ControllerDefinition controller = new ControllerDefinition(
                0, new Name("c"), LINE.name(), new UnitId(1), new ControllerType(new Name("planned"), rows), 0);
        return IntStream.range(0, points)
                .mapToObj(i -> new SitePoint(i, controller, rows.get(i)))
                .toList();
    }

    private static PointDefinition row(int wire, Duration every) {
        return new PointDefinition(
                new Name("p-" + wire),
                "",
                RegisterTable.HOLDING_REGISTER,
                wire,
                Integer.toString(wire),
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.NONE,
                Role.MEASUREMENT,
                every,
                every.multipliedBy(3),
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.NONE);
    }
}
