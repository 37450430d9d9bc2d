package burnerbridge.poll;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.HandClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** A line, its poller and a clock that a test moves. Its transport keeps the pauses that requests ask for. */
final class PollRig {
    final HandClock clock = new HandClock();
    final FakeTransport transport = new FakeTransport(this::answered);
    final List<SitePoint> points;
    final ValueTable table;
    final LinePoller poller;
    private final Map<Integer, Long> ended = new HashMap<>();

    PollRig(ControllerDefinition... controllers) {
        this(points -> LinePlan.all(List.of(Points.line()), points).get(0), controllers);
    }

    /** @param planning makes the plan of the points */
    PollRig(Function<List<SitePoint>, LinePlan> planning, ControllerDefinition... controllers) {
        points = Points.of(controllers);
        table = new ValueTable(points, Arrays.asList(controllers));
        transport.ready = this::readyAt;
        poller = new LinePoller(planning.apply(points), transport, table, clock);
    }

    /** All points of each controller, which are registers, in one read. */
    static LinePlan together(List<SitePoint> points) {
        Map<ControllerDefinition, List<SitePoint>> all =
                points.stream().collect(Collectors.groupingBy(SitePoint::controller));
        return new LinePlan(
                Points.line(), all.values().stream().map(PollRig::block).toList());
    }

    private static ReadBlock block(List<SitePoint> points) {
        PointDefinition first = points.get(0).definition();
        PointDefinition last = points.get(points.size() - 1).definition();
        int count = last.wireAddress() + last.format().width() - first.wireAddress();
        ReadRequest request =
                new ReadRequest(points.get(0).controller().unit(), first.table(), first.wireAddress(), count);
        return new ReadBlock(points.get(0).controller(), List.of(request), false, first.every(), points);
    }

    private long readyAt(ReadRequest request, Long now) {
        Long end = ended.get(request.unit().number());
        return end == null ? now : end + request.terms().pause().toNanos();
    }

    /** Every register holds its own address; a transaction takes 10 ms. */
    Outcome answered(ReadRequest request) {
        return after(request, new Outcome.Answered(numbers(request), clock.now()));
    }

    private static Registers numbers(ReadRequest request) {
        int[] words = new int[request.count()];
        Arrays.setAll(words, i -> request.first() + i);
        return Registers.of(words);
    }

    Outcome refused(ReadRequest request, int code) {
        return after(request, new Outcome.Refused(code, clock.now()));
    }

    Outcome silent(ReadRequest request) {
        Outcome silent = new Outcome.Silent(clock.now());
        clock.forward(Points.line().replyTimeout());
        return after(request, silent);
    }

    private Outcome after(ReadRequest request, Outcome outcome) {
        clock.forward(Duration.ofMillis(10));
        ended.put(request.unit().number(), clock.ticks());
        return outcome;
    }

    /** Steps the poller whenever it wants to be, until a time has passed. */
    void runFor(Duration duration) {
        long end = clock.ticks() + duration.toNanos();
        long due = poller.step();
        while (due - end < 0) {
            if (due - clock.ticks() > 0) {
                clock.forward(Duration.ofNanos(due - clock.ticks()));
            }
            due = poller.step();
        }
        if (end - clock.ticks() > 0) {
            clock.forward(Duration.ofNanos(end - clock.ticks()));
        }
    }

    Reading reading(int point) {
        return table.reading(points.get(point));
    }

    List<Integer> askedFirsts() {
        return transport.asked.stream().map(ReadRequest::first).toList();
    }

    long asks(int unit) {
        return transport.asked.stream()
                .filter(request -> request.unit().number() == unit)
                .count();
    }

    @Nullable
    Long endOf(int unit) {
        return ended.get(unit);
    }
}
