package burnerbridge.daemon;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.control.ControlServer;
import burnerbridge.control.Greeting;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.MqttAdapter;
import burnerbridge.permits.PermitsHandler;
import burnerbridge.scan.PollerScan;
import burnerbridge.scan.ScanHandler;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.state.StateFolder;
import burnerbridge.table.ValueTable;
import burnerbridge.values.AskedFor;
import burnerbridge.values.ValuesHandler;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The composition root: line, poll, decode, value table, and the two sides that read it. */
final class Bridge implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Bridge.class);

    private final Site site;
    private final BridgeClock clock;
    private final LineThreads lineThreads;
    private final StateFolder state;
    private final StopStack started = new StopStack();

    /** @param state taken by this process; its owner gives it up after the bridge is closed */
    Bridge(Site site, BridgeClock clock, LineThreads lineThreads, StateFolder state) {
        this.site = site;
        this.clock = clock;
        this.lineThreads = lineThreads;
        this.state = state;
    }

    /** Starts every part. A part that cannot work yet is told and tried again while the rest runs. */
    void start() {
        List<SitePoint> points = site.points();
        ValueTable table = new ValueTable(points, site.owners());
        LOG.info(
                "site {}: lines {}, controllers {}, points {}; {}",
                site.name(),
                site.lines().size(),
                site.controllers().size(),
                points.size(),
                site.permits().isEmpty()
                        ? "nothing is writable"
                        : site.permits().size() + " write permits");
        WriteSide writes = new WriteSide(site, table, clock, state.folder());
        site.mqtt().ifPresent(settings -> {
            MqttAdapter mqtt = new MqttAdapter(settings, site, table, clock)
                    .publishing(writes::head)
                    .asking(writes.gatehouse());
            writes.telling(mqtt.writeEvents());
            started.push(mqtt);
            mqtt.start();
        });
        Gate gate = writes.gatehouse().map(Gate::of).orElseGet(Gate::closed);
        Optional<BacnetSide> bacnet = site.bacnet()
                .map(settings -> new BacnetSide(() -> new BacnetAdapter(settings, site, table, clock, gate)));
        bacnet.ifPresent(side -> {
            startDuty(new DutyThread("bacnet start", side::step, clock));
            started.push(side);
        });
        started.push(writes::close);
        LineSide lines = new LineSide(site, table, clock, lineThreads, writes.gatehouse());
        started.push(lines);
        lines.start();
        startDuty(new DutyThread("write gate", writes::step, clock));
        // What stands in a controller is taken back first of all, while everything else still runs.
        started.push(writes::takeBack);
        startControl(table, lines, writes, () -> bacnet.flatMap(BacnetSide::foreignDevice));
    }

    /** Without it the bridge does its work all the same; only nobody can look into it. */
    private void startControl(
            ValueTable table, LineSide lines, WriteSide writes, Supplier<Optional<ForeignDevice.State>> registration) {
        Stamp startedAt = clock.now();
        PermitsHandler permits = writes.permits(site, table);
        AskedFor.Source asked = writes.asked(site);
        PollerScan scan = new PollerScan(lines.pollers(), table);
        Greeting greeting = new Greeting(
                Main.VERSION, site.name().text(), ProcessHandle.current().pid());
        ControlServer control = new ControlServer(
                state.socket(),
                greeting,
                Map.of(
                        ValuesHandler.NAME, () -> new ValuesHandler(table, asked, clock),
                        ScanHandler.NAME, () -> new ScanHandler(scan),
                        PermitsHandler.SHOW, () -> permits.show(),
                        PermitsHandler.APPROVE, () -> permits.approve(),
                        PermitsHandler.WITHDRAW, () -> permits.withdraw(),
                        AboutHandler.NAME, () -> new AboutHandler(site, startedAt, registration)));
        started.push(control);
        try {
            control.start();
            LOG.info("control socket {}", state.socket());
        } catch (IOException e) {
            LOG.warn("no control socket, so that the other commands cannot ask this bridge: {}", e.getMessage());
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
