package burnerbridge.daemon;

import burnerbridge.derive.GroupCounts;
import burnerbridge.line.Lines;
import burnerbridge.line.WritableLine;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.BridgeClock;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Site;
import burnerbridge.table.StaleSweep;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The stages from the lines to the value table, each line on its own thread. Ends in reverse order. */
final class LineSide implements AutoCloseable {
    private final Site site;
    private final ValueTable table;
    private final BridgeClock clock;
    private final LineThreads lineThreads;
    private final Optional<Gatehouse> gate;
    private final StopStack started = new StopStack();
    private final List<LinePoller> pollers = new ArrayList<>();
    private final List<DutyThread> duties = new ArrayList<>();

    /** Lines that are only read. */
    LineSide(Site site, ValueTable table, BridgeClock clock, LineThreads lineThreads) {
        this(site, table, clock, lineThreads, Optional.empty());
    }

    /** @param gate through which everything goes that is written; empty: nothing can be */
    LineSide(Site site, ValueTable table, BridgeClock clock, LineThreads lineThreads, Optional<Gatehouse> gate) {
        this.gate = gate;
        this.site = site;
        this.table = table;
        this.clock = clock;
        this.lineThreads = lineThreads;
    }

    void start() {
        StaleSweep sweep = new StaleSweep(table);
        startDuty(new DutyThread("stale sweep", sweep::step, clock));
        if (!site.groups().isEmpty()) {
            GroupCounts counts = new GroupCounts(table);
            startDuty(new DutyThread("group counts", counts::step, clock));
        }
        for (LinePlan plan : LinePlan.all(site.lines(), table.points())) {
            LinePoller poller = poller(plan);
            pollers.add(poller);
            DutyThread thread = new DutyThread(work -> lineThreads.of(plan.line(), work), now -> poller.step(), clock);
            poller.tools().whenAsked(thread::wake);
            poller.whenErrandWoken(thread::wake);
            startDuty(thread);
            // Closed before its thread is waited for, so that a read under way ends at once.
            started.push(poller);
        }
    }

    /** A line over which nothing may be written has no way to write. */
    private LinePoller poller(LinePlan plan) {
        LineDefinition line = plan.line();
        List<WriteTemplate> templates =
                gate.map(house -> house.templates(line.name())).orElse(List.of());
        if (templates.isEmpty()) {
            return new LinePoller(plan, Lines.transport(line, clock), table, clock);
        }
        Gatehouse house = gate.orElseThrow();
        WritableLine writable = Lines.writable(line, clock, templates, house.guards(line.name()));
        LinePoller poller = new LinePoller(plan, writable.transport(), table, clock);
        poller.errand(house.writer(line.name(), writable, poller::errandWoken));
        return poller;
    }

    /** Those of all lines, once it was started. */
    List<LinePoller> pollers() {
        return List.copyOf(pollers);
    }

    /** What must keep moving, once it was started. */
    List<DutyThread> duties() {
        return List.copyOf(duties);
    }

    private void startDuty(DutyThread thread) {
        duties.add(thread);
        started.push(thread);
        thread.start();
    }

    /** Idempotent. */
    @Override
    public void close() {
        started.close();
    }
}
