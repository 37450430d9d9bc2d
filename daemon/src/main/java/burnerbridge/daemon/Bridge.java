package burnerbridge.daemon;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.control.ControlServer;
import burnerbridge.control.Greeting;
import burnerbridge.daemon.log.RunLog;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.BridgeClock;
import burnerbridge.mqtt.MqttAdapter;
import burnerbridge.permits.PermitsHandler;
import burnerbridge.scan.LineMetrics;
import burnerbridge.scan.LineTroubles;
import burnerbridge.scan.PointTroubles;
import burnerbridge.scan.PollerScan;
import burnerbridge.scan.ScanHandler;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.WebSettings;
import burnerbridge.state.StateFolder;
import burnerbridge.table.ValueTable;
import burnerbridge.values.AskedFor;
import burnerbridge.values.ValuesHandler;
import burnerbridge.web.Pages;
import burnerbridge.web.WebAdapter;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The composition root: line, poll, decode, value table, and the two sides that read it. */
final class Bridge implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Bridge.class);
    private static final long BOX_PACE = Duration.ofSeconds(5).toNanos();

    private final Site site;
    private final BridgeClock clock;
    private final LineThreads lineThreads;
    private final StateFolder state;
    private final Circumstances circumstances;
    private final Vitals vitals;
    private final StopStack started = new StopStack();
    private Optional<RunLog> log = Optional.empty();

    /** @param state taken by this process; its owner gives it up after the bridge is closed */
    Bridge(Site site, BridgeClock clock, LineThreads lineThreads, StateFolder state) {
        this(site, clock, lineThreads, state, Circumstances.USUAL);
    }

    Bridge(Site site, BridgeClock clock, LineThreads lineThreads, StateFolder state, Circumstances circumstances) {
        this.site = site;
        this.clock = clock;
        this.lineThreads = lineThreads;
        this.state = state;
        this.circumstances = circumstances;
        this.vitals = new Vitals(site, clock);
    }

    /** Has the log tell what it counted, and show its newest lines to who asks. To be called before the start. */
    Bridge logging(RunLog runLog) {
        log = Optional.of(runLog);
        return this;
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
        watchTheBox();
        // First of all, so that whoever watches sees how the rest comes up.
        site.web().ifPresent(this::startWeb);
        WriteSide writes = new WriteSide(site, table, clock, state.folder(), circumstances.writesClosed());
        vitals.watch(writes::tell);
        vitals.count(writes::measure);
        site.mqtt().ifPresent(settings -> {
            MqttAdapter mqtt = new MqttAdapter(settings, site, table, clock)
                    .publishing(writes::head)
                    .asking(writes.gatehouse());
            writes.telling(mqtt.writeEvents());
            vitals.watch(mqtt);
            vitals.count(mqtt);
            started.push(mqtt);
            mqtt.start();
        });
        Gate gate = writes.gatehouse().map(Gate::of).orElseGet(Gate::closed);
        Optional<BacnetSide> bacnet = site.bacnet()
                .map(settings -> new BacnetSide(() -> new BacnetAdapter(settings, site, table, clock, gate)));
        bacnet.ifPresent(side -> {
            vitals.watch(side::tell);
            vitals.count(side::measure);
            startDuty(new DutyThread("bacnet start", side::step, clock));
            started.push(side);
        });
        started.push(writes::close);
        LineSide lines = new LineSide(site, table, clock, lineThreads, writes.gatehouse());
        started.push(lines);
        lines.start();
        lines.duties().forEach(vitals::watch);
        vitals.watch(new LineTroubles(lines.pollers(), table));
        vitals.watch(new PointTroubles(table, clock));
        vitals.count(new LineMetrics(lines.pollers(), table));
        startDuty(new DutyThread("write gate", writes::step, clock));
        // What stands in a controller is taken back first of all, while everything else still runs.
        started.push(writes::takeBack);
        startControl(table, lines, writes, () -> bacnet.flatMap(BacnetSide::foreignDevice));
        vitals.allStarted();
    }

    private void watchTheBox() {
        MachineVitals machine = new MachineVitals(
                site.name().text(),
                state.folder(),
                vitals.startedAt(),
                () -> clock.now().believed());
        vitals.watch(machine);
        vitals.count(machine);
        vitals.watch(troubles -> circumstances.troubles().forEach(troubles));
        log.ifPresent(vitals::count);
        ClockWatch clockWatch = new ClockWatch(clock);
        startDuty(new DutyThread(
                "box",
                now -> {
                    clockWatch.step();
                    machine.step();
                    log.ifPresent(runLog -> runLog.step(now));
                    return now + BOX_PACE;
                },
                clock));
    }

    private void startWeb(WebSettings settings) {
        Pages pages = new Pages(vitals::report, vitals);
        WebSide web = new WebSide(() -> new WebAdapter(settings, pages, clock), clock);
        vitals.watch(web::tell);
        vitals.count(web::measure);
        startDuty(new DutyThread("web start", web::step, clock));
        started.push(web);
    }

    /** Without it the bridge does its work all the same; only nobody can look into it. */
    private void startControl(
            ValueTable table, LineSide lines, WriteSide writes, Supplier<Optional<ForeignDevice.State>> registration) {
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
                        AboutHandler.NAME, () -> new AboutHandler(site, vitals.startedAt(), registration),
                        HealthHandler.NAME, () -> new HealthHandler(vitals::report),
                        LogHandler.NAME, () -> new LogHandler(log.map(RunLog::recent))));
        started.push(control);
        try {
            control.start();
            LOG.info("control socket {}", state.socket());
        } catch (IOException e) {
            LOG.warn("no control socket, so that the other commands cannot ask this bridge: {}", e.getMessage());
            Trouble trouble = new Trouble(
                    Place.BRIDGE,
                    "control socket",
                    "there is none, so that no command can ask this bridge: " + e.getMessage(),
                    "the state folder, and start the bridge again",
                    clock.now(),
                    Trouble.Weight.DEGRADED);
            vitals.watch(troubles -> troubles.accept(trouble));
        }
    }

    private void startDuty(DutyThread thread) {
        vitals.watch(thread);
        started.push(thread);
        thread.start();
    }

    /** Ends every part in reverse order. Idempotent. */
    @Override
    public void close() {
        started.close();
    }
}
