package burnerbridge.daemon;

import burnerbridge.derive.GroupCounts;
import burnerbridge.line.Lines;
import burnerbridge.model.BridgeClock;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.Site;
import burnerbridge.table.StaleSweep;
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.List;

/** The stages from the lines to the value table, each line on its own thread. Ends in reverse order. */
final class LineSide implements AutoCloseable {
    private final Site site;
    private final ValueTable table;
    private final BridgeClock clock;
    private final LineThreads lineThreads;
    private final StopStack started = new StopStack();
    private final List<LinePoller> pollers = new ArrayList<>();

    LineSide(Site site, ValueTable table, BridgeClock clock, LineThreads lineThreads) {
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
            LinePoller poller = new LinePoller(plan, Lines.transport(plan.line(), clock), table, clock);
            pollers.add(poller);
            DutyThread thread = new DutyThread(work -> lineThreads.of(plan.line(), work), now -> poller.step(), clock);
            poller.tools().whenAsked(thread::wake);
            startDuty(thread);
            // Closed before its thread is waited for, so that a read under way ends at once.
            started.push(poller);
        }
    }

    /** Those of all lines, once it was started. */
    List<LinePoller> pollers() {
        return List.copyOf(pollers);
    }

    private void startDuty(DutyThread thread) {
        started.push(thread);
        thread.start();
    }

    /** Idempotent. */
    @Override
    public void close() {
        started.close();
    }
}
