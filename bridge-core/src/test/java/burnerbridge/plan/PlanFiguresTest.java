package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The figures of docs/read-plan.md: what a plan saves beside the two plainest ways to read a list. */
class PlanFiguresTest {
    private static final Path PAGE = Path.of("..", "docs", "read-plan.md");
    private static final Duration SECOND = Duration.ofSeconds(1);

    private static ReadRules limits(int otherwise, ReadLimits.InRange... ranges) {
        return new ReadRules(false, new ReadLimits(otherwise, List.of(ranges)), Duration.ZERO, List.of());
    }

    private static ReadLimits.InRange limit(int first, int last, int most) {
        return new ReadLimits.InRange(new AddressRange(RegisterTable.HOLDING_REGISTER, first, last), most);
    }

    /** A list of rows from address 0 on, of which some are points that are read every second. */
    private record RowList(int rows, IntPredicate polled, ReadRules rules) {
        static RowList named(String name) {
            return switch (name) {
                case "dense" -> new RowList(180, at -> at % 20 < 18, limits(125));
                case "scattered" -> new RowList(541, at -> at % 9 == 0, limits(125));
                default -> new RowList(180, at -> at % 20 < 18, limits(32, limit(60, 79, 8), limit(120, 179, 50)));
            };
        }

        List<SitePoint> points() {
            List<PointDefinition> all = IntStream.range(0, rows)
                    .mapToObj(at -> Points.every("p-" + at, at, polled.test(at) ? SECOND : Duration.ZERO))
                    .toList();
            ControllerDefinition boiler = new ControllerDefinition(
                    0,
                    new Name("boiler-1"),
                    new Name("annex"),
                    new UnitId(1),
                    new ControllerType(new Name("list"), all, rules),
                    0);
            return Points.of(boiler).stream()
                    .filter(point -> point.definition().isPolled())
                    .toList();
        }

        List<ReadRequest> fromLowestToHighest(List<SitePoint> points) {
            List<ReadRequest> reads = new ArrayList<>();
            int last = points.get(points.size() - 1).definition().wireAddress();
            for (int at = 0; at <= last; at = at + reads.get(reads.size() - 1).count()) {
                int count = 1;
                while (at + count <= last
                        && rules.objectionTo(range(at, count + 1)).isEmpty()) {
                    count++;
                }
                reads.add(request(at, count));
            }
            return reads;
        }

        private static AddressRange range(int at, int count) {
            return AddressRange.of(RegisterTable.HOLDING_REGISTER, at, count);
        }
    }

    private static ReadRequest request(int at, int count) {
        return new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, at, count);
    }

    private static LineDefinition line(int baud) {
        Serial serial = new Serial("/dev/ttyS0", baud, Parity.EVEN, 1, Rs485.AUTO, false);
        return new LineDefinition(new Name("annex"), serial, SECOND, SECOND);
    }

    private static String figures(List<ReadRequest> reads, int baud, Duration turnaround) {
        double millis = reads.stream()
                        .mapToLong(read ->
                                CostModel.of(line(baud)).of(read, turnaround).toNanos())
                        .sum()
                / 1e6;
        return String.format(Locale.ROOT, "%d, %.0f ms", reads.size(), millis);
    }

    @ParameterizedTest
    @CsvSource({
        "dense, 19200, 0", "dense, 19200, 20", "dense, 115200, 5",
        "scattered, 19200, 0", "scattered, 19200, 20", "scattered, 115200, 5",
        "limits of ranges, 19200, 0", "limits of ranges, 19200, 20", "limits of ranges, 115200, 5"
    })
    void thePageHasWhatThePlannerMakes(String name, int baud, int millis) throws IOException {
        Duration turnaround = Duration.ofMillis(millis);
        RowList list = RowList.named(name);
        List<SitePoint> points = list.points();
        List<ReadRequest> each = points.stream()
                .map(point -> request(point.definition().wireAddress(), 1))
                .toList();
        List<ReadRequest> planned = LinePlan.of(line(baud), points, Turnarounds.all(turnaround)).blocks().stream()
                .flatMap(block -> block.requests().stream())
                .toList();
        assertThat(Files.readString(PAGE))
                .contains(String.format(
                        Locale.ROOT,
                        "| %s | %d, %d ms | %s | %s | %s |",
                        name,
                        baud,
                        millis,
                        figures(each, baud, turnaround),
                        figures(list.fromLowestToHighest(points), baud, turnaround),
                        figures(planned, baud, turnaround)));
    }

    @Test
    void theGapWorthReadingAcrossIsOnThePage() throws IOException {
        for (int baud : new int[] {9600, 19_200, 38_400, 115_200}) {
            CostModel model = CostModel.of(line(baud));
            StringBuilder row = new StringBuilder("| " + baud + " |");
            for (int millis : new int[] {0, 5, 10, 20}) {
                double fixed = model.exchange() + 2 * model.silence() + millis * 1e6;
                row.append(String.format(Locale.ROOT, " %.1f |", fixed / (2 * model.dataByte())));
            }
            assertThat(Files.readString(PAGE)).contains(row);
        }
    }
}
