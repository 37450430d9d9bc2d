package burnerbridge.daemon;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.line.Lines;
import burnerbridge.model.BridgeClock;
import burnerbridge.mqtt.MqttAdapter;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.StaleSweep;
import burnerbridge.table.ValueTable;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The composition root: line, poll, decode, value table, and the two sides that read it. */
final class Bridge implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Bridge.class);

    private final Site site;
    private final BridgeClock clock;
    private final LineThreads lineThreads;
    private final StopStack started = new StopStack();

    Bridge(Site site, BridgeClock clock, LineThreads lineThreads) {
        this.site = site;
        this.clock = clock;
        this.lineThreads = lineThreads;
    }

    /** Starts every part. A part that cannot work yet is told and tried again while the rest runs. */
    void start() {
        List<SitePoint> points = site.points();
        ValueTable table = new ValueTable(points, site.controllers());
        LOG.info(
                "site {}: lines {}, controllers {}, points {}; nothing is writable",
                site.name(),
                site.lines().size(),
                site.controllers().size(),
                points.size());
        site.mqtt().ifPresent(settings -> {
            MqttAdapter mqtt = new MqttAdapter(settings, site, table, clock);
            started.push(mqtt);
            mqtt.start();
        });
        site.bacnet().ifPresent(settings -> {
            BacnetSide bacnet = new BacnetSide(() -> new BacnetAdapter(settings, site, table, clock));
            startDuty(new DutyThread("bacnet start", bacnet::step, clock));
            started.push(bacnet);
        });
        StaleSweep sweep = new StaleSweep(table);
        startDuty(new DutyThread("stale sweep", sweep::step, clock));
        for (LinePlan plan : LinePlan.all(site.lines(), points)) {
            LinePoller poller = new LinePoller(plan, Lines.transport(plan.line(), clock), table, clock);
            startDuty(new DutyThread(work -> lineThreads.of(plan.line(), work), now -> poller.step(), clock));
            // Closed before its thread is waited for, so that a read under way ends at once.
            started.push(poller);
        }
    }

    private void startDuty(DutyThread thread) {
        started.push(thread);
        thread.start();
    }

    /** Ends every part in reverse order. Idempotent. */
    @Override
    public void close() {
        started.close();
    }
}
