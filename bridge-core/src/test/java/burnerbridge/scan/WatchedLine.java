package burnerbridge.scan;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Turnarounds;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Points;
import burnerbridge.site.UnitId;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** A line called annex whose outcomes, counts and findings a test decides. */
final class WatchedLine implements LineTransport {
    final HandClock clock = new HandClock();
    final ValueTable table;
    final LinePoller poller;
    final List<Finding> findings = new ArrayList<>();
    final Map<UnitId, LineCounts> counts = new HashMap<>();
    Function<ReadRequest, Outcome> answer = this::answered;

    WatchedLine(LineDefinition.Endpoint endpoint, ControllerDefinition... controllers) {
        table = new ValueTable(Points.of(controllers), List.of(controllers));
        LineDefinition line =
                new LineDefinition(new Name("annex"), endpoint, Duration.ofSeconds(1), Duration.ofSeconds(3));
        poller = new LinePoller(LinePlan.of(line, table.points(), Turnarounds.ASSUMED), this, table, clock);
    }

    Outcome answered(ReadRequest request) {
        return new Outcome.Answered(Registers.of(new int[request.count()]), clock.now());
    }

    /** Steps the poller whenever it wants to be, until a time has passed. */
    void runFor(Duration duration) {
        long end = clock.ticks() + duration.toNanos();
        long due = poller.step();
        while (due - end < 0) {
            clock.forward(Duration.ofNanos(Math.max(1_000_000, due - clock.ticks())));
            due = poller.step();
        }
    }

    static List<Trouble> of(HealthSource source) {
        List<Trouble> troubles = new ArrayList<>();
        source.tell(troubles::add);
        return troubles;
    }

    List<Trouble> troubles() {
        return of(new LineTroubles(List.of(poller), table));
    }

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
        return counts.values().stream().findFirst().orElse(LineCounts.NONE);
    }

    @Override
    public LineCounts counts(UnitId unit) {
        return counts.getOrDefault(unit, LineCounts.NONE);
    }

    @Override
    public List<Finding> findings() {
        return findings;
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
