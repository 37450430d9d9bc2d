package burnerbridge.scan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.ControlServer;
import burnerbridge.control.Greeting;
import burnerbridge.control.JsonLine;
import burnerbridge.control.Request;
import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Turnarounds;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.UnitId;
import burnerbridge.table.ValueTable;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A line with a controller that answers, of which it refuses a point, and one that is dead. */
class ScanRowsIT {
    private static final Duration TURNAROUND = Duration.ofMillis(20);

    private final HandClock clock = new HandClock();
    private final ControllerDefinition alive = Points.controller(
            0,
            "boiler-1",
            1,
            Points.every("fast", 0, Duration.ofSeconds(2)),
            Points.every("slow", 100, Duration.ofSeconds(10)),
            Points.every("nowhere", 200, Duration.ofSeconds(10)));
    private final ControllerDefinition dead = Points.controller(
            1,
            "boiler-2",
            2,
            IntStream.range(0, 600)
                    .mapToObj(i -> Points.every("p" + i, 2 * i, Duration.ofSeconds(10 + i)))
                    .toArray(PointDefinition[]::new));
    private final List<ControllerDefinition> controllers = List.of(alive, dead);
    private final ValueTable table = new ValueTable(Points.of(alive, dead), controllers);
    private final LinePoller poller = new LinePoller(
            LinePlan.of(
                    new LineDefinition(
                            new Name("annex"),
                            new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600),
                            Duration.ofSeconds(1),
                            Duration.ofSeconds(3)),
                    table.points(),
                    Turnarounds.ASSUMED),
            new Line(this::answer),
            table,
            clock);
    private final PollerScan own = new PollerScan(List.of(poller), table);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private ControlServer server;

    @SuppressWarnings("NullAway.Init")
    private RemoteScan remote;

    private record Line(Function<ReadRequest, Outcome> answer) implements LineTransport {
        @Override
        public Outcome read(ReadRequest request) {
            return answer.apply(request);
        }

        @Override
        public long readyAt(ReadRequest request, long now) {
            return now;
        }

        @Override
        public LineCounts counts() {
            return LineCounts.NONE;
        }

        @Override
        public LineCounts counts(UnitId unit) {
            return LineCounts.NONE;
        }

        @Override
        public List<Finding> findings() {
            return List.of();
        }

        @Override
        public void close() {}
    }

    private Outcome answer(ReadRequest request) {
        Stamp asked = clock.now();
        if (request.unit().number() == 2) {
            clock.forward(Duration.ofSeconds(1));
            return new Outcome.Silent(asked);
        }
        // By hand, 11 bits a character: 8 and 5 and the data, and a silence of 3.5.
        double characters = 8 + 5 + 2 * request.count() + 3.5;
        clock.forward(Duration.ofNanos(Math.round(characters * 11e9 / 9600)).plus(TURNAROUND));
        return request.first() == 200
                ? new Outcome.Refused(2, asked)
                : new Outcome.Answered(Registers.of(new int[request.count()]), asked);
    }

    @BeforeEach
    void start() throws Exception {
        Path socket = folder.resolve("control").resolve("socket");
        server = new ControlServer(
                socket, new Greeting("0.1.0", "quillmere", 1), Map.of(ScanHandler.NAME, () -> new ScanHandler(own)));
        server.start();
        remote = new RemoteScan(ControlClient.connect(socket));
    }

    @AfterEach
    void end() {
        remote.close();
        server.close();
        poller.close();
    }

    private void runFor(Duration duration) {
        long end = clock.ticks() + duration.toNanos();
        while (end - clock.ticks() > 0) {
            long due = poller.step();
            long now = clock.ticks();
            clock.forward(Duration.ofNanos(Math.max(0, Math.min(due - now, end - now))));
        }
    }

    private static long nanos(@Nullable Duration duration) {
        return Objects.requireNonNull(duration).toNanos();
    }

    private static List<ScanRow> rows(ScanSource source, int from, int most) throws ControlException {
        List<ScanRow> rows = new ArrayList<>();
        source.read(from, most, rows::add);
        return rows;
    }

    @Test
    void beforeAnythingIsReadOnlyThePredictionIsThere() throws Exception {
        List<ScanRow> rows = rows(own, 0, 2);
        assertThat(((ScanRow.Line) rows.get(0)).measuredLoad()).isNull();
        ScanRow.Controller fast = (ScanRow.Controller) rows.get(1);
        // One register: 15 characters, two silences, 5 ms.
        assertThat(nanos(fast.scan()) / 1e6).isCloseTo(22 * 11_000.0 / 9600 + 5, within(1e-3));
        assertThat(fast.load()).isCloseTo(nanos(fast.scan()) / 2e9, within(1e-9));
        assertThat(fast.turnaround()).isEqualTo(Duration.ofMillis(5));
        assertThat(fast.learned()).isNull();
        assertThat(fast.measuredScan()).isNull();
        assertThat(fast.link()).isEqualTo("not-asked-yet");
        assertThat(fast.isDown()).isFalse();
    }

    @Test
    void whatIsMeasuredStandsBesideWhatIsPredicted() throws Exception {
        runFor(Duration.ofMinutes(20));
        ScanRow.Controller fast = (ScanRow.Controller) rows(own, 0, 3).get(1);
        assertThat(fast.controller()).isEqualTo("boiler-1");
        assertThat(fast.every()).isEqualTo(Duration.ofSeconds(2));
        assertThat(fast.learned()).isEqualTo(fast.turnaround());
        assertThat(nanos(fast.learned()) / 1e6).isCloseTo(20, within(0.01));
        // The silence before the request had passed already.
        assertThat(nanos(fast.measuredScan()) / 1e6).isCloseTo(18.5 * 11_000.0 / 9600 + 20, within(0.01));
        assertThat(nanos(fast.scan()) / 1e6).isCloseTo(22 * 11_000.0 / 9600 + 20, within(0.01));
        assertThat(nanos(fast.achieved()) / 1e9).isCloseTo(2, within(0.2));
        assertThat(fast.requests()).isBetween(590L, 610L);
        assertThat(fast.refused()).isEmpty();
        ScanRow.Controller slow = (ScanRow.Controller) rows(own, 0, 3).get(2);
        assertThat(slow.reads()).isEqualTo(2);
        assertThat(slow.refused()).containsExactly("nowhere");
        assertThat(slow.link()).isEqualTo("up");
        assertThat(nanos(slow.measuredScan())).isEqualTo(2 * nanos(fast.measuredScan()));
    }

    @Test
    void aDeadControllerIsShownAsDeadAndTheLoadIsWhatTheLineTakes() throws Exception {
        runFor(Duration.ofMinutes(20));
        List<ScanRow> rows = rows(own, 0, Integer.MAX_VALUE);
        ScanRow.Controller gone = (ScanRow.Controller) rows.get(rows.size() - 1);
        assertThat(gone.isDown()).isTrue();
        assertThat(gone.link()).isEqualTo("no-reply");
        assertThat(gone.detail()).contains("no reply");
        assertThat(gone.measuredScan()).isNull();
        // By hand: a read of one register every 2 s, another every 10 s, and the probes, 2 %.
        double millis = 18.5 * 11_000.0 / 9600 + 20;
        assertThat(((ScanRow.Line) rows.get(0)).measuredLoad())
                .isCloseTo(millis / 2_000 + millis / 10_000 + 0.02, within(0.008));
    }

    @Test
    void theRowsOfTheBridgeAreThoseOfItsPollers() throws Exception {
        runFor(Duration.ofMinutes(3));
        List<ScanRow> all = rows(own, 0, Integer.MAX_VALUE);
        assertThat(all).hasSizeGreaterThan(ScanHandler.MOST);
        assertThat(rows(remote, 0, Integer.MAX_VALUE))
                .usingRecursiveComparison()
                .isEqualTo(rounded(all));
        assertThat(rows(remote, 490, 25)).hasSize(25).isEqualTo(rounded(all.subList(490, 515)));
        assertThat(remote.read(0, 0, row -> {})).isEqualTo(all.size());
        assertThat(rows(remote, all.size() + 5, 10)).isEmpty();
    }

    /** As JSON has them. */
    private static List<ScanRow> rounded(List<ScanRow> rows) {
        return rows.stream()
                .map(row -> ScanJson.read(JsonLine.parse(JsonLine.object(json -> ScanJson.write(json, row)))))
                .toList();
    }

    @Test
    void oneReplyIsBounded() throws Exception {
        List<String> lines = new ArrayList<>();
        new ScanHandler(own).answer(new Request("plan", Map.of()), members -> lines.add(JsonLine.object(members)));
        assertThat(lines).hasSize(1 + ScanHandler.MOST);
    }

    @Test
    void aRowSurvivesJsonToTheMicrosecond() throws Exception {
        runFor(Duration.ofMinutes(3));
        ScanRow.Controller row = (ScanRow.Controller) rows(own, 1, 1).get(0);
        ScanRow.Controller read = (ScanRow.Controller) rounded(List.of(row)).get(0);
        assertThat(read.line()).isEqualTo("annex");
        assertThat(read.every()).isEqualTo(row.every());
        assertThat(nanos(read.measuredScan())).isCloseTo(nanos(row.measuredScan()), within(1_000L));
        assertThat(read.load()).isCloseTo(row.load(), within(1e-6));
        assertThat(read.requests()).isEqualTo(row.requests());
    }
}
