package burnerbridge.bacnet;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.device.BridgeDevice;
import burnerbridge.bacnet.device.ChangeApplier;
import burnerbridge.bacnet.door.DoorKeeper;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.EdgePort;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.bacnet.edge.PeerLimits;
import burnerbridge.bacnet.edge.PortCounters;
import burnerbridge.bacnet.edge.PortSettings;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves the value table as one BACnet/IP device with an object for each bound point. Reads the table only; what comes from
 * the network goes to the write gate, and nowhere else.
 *
 * <p>Its threads: {@code bacnet apply}, where there are permits {@code bacnet permits}, one or two that listen, {@code bacnet requests}, where
 * it registers elsewhere {@code bacnet registration}, and {@code bacnet timer}, which rests. All methods may be
 * called from any thread; they exclude each other, but for {@link #tell} and {@link #measure}, which wait for nobody.
 */
public final class BacnetAdapter implements HealthSource, MetricSource, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(BacnetAdapter.class);

    private final BacnetSettings settings;
    private final Site site;
    private final ValueTable table;
    private final BridgeClock clock;
    private final Gate gate;
    private final ObjectChoices choices;
    private final ObjectPlan plan;

    private volatile @Nullable Running running;
    private boolean closed;

    private record Running(EdgePort port, BridgeDevice device, List<StepRunner> runners) {}

    /**
     * With a gate at which nothing is admitted.
     *
     * @param settings a port of 0 stands for any free one
     */
    public BacnetAdapter(BacnetSettings settings, Site site, ValueTable table, BridgeClock clock) {
        this(settings, site, table, clock, Gate.closed());
    }

    /**
     * @param settings a port of 0 stands for any free one
     * @param gate where permitted points are asked for
     */
    public BacnetAdapter(BacnetSettings settings, Site site, ValueTable table, BridgeClock clock, Gate gate) {
        this.settings = settings;
        this.site = site;
        this.table = table;
        this.clock = clock;
        this.gate = gate;
        this.choices = new ObjectChoices(
                settings.options().basicObjects(), settings.options().objectNames());
        this.plan = ObjectPlan.of(site, choices);
    }

    /**
     * Opens the port and begins to serve. After it has thrown nothing stays open and it may be called again;
     * after it has succeeded it may not.
     *
     * @throws BacnetStartException where the address or the port cannot be had, with a message that says why
     */
    public synchronized void start() throws BacnetStartException {
        if (closed || running != null) {
            throw new IllegalStateException("bacnet: " + (closed ? "closed" : "started already"));
        }
        EdgePort port = openPort();
        running = serve(port);
        LOG.info(
                "bacnet {}: device {} serves {} objects; {} points stay off",
                port.place(),
                settings.deviceInstance(),
                plan.count(),
                plan.off().size());
        plan.off()
                .forEach(
                        off -> LOG.debug("bacnet: {} stays off: {}", off.point().id(), off.why()));
        plan.mute()
                .forEach(off -> LOG.warn(
                        "bacnet: nobody can ask for {}: {}", off.point().id(), off.why()));
    }

    private EdgePort openPort() throws BacnetStartException {
        try {
            return EdgePort.open(portSettings(), clock);
        } catch (IOException e) {
            throw BacnetStartException.ofPort(e, clock.now());
        }
    }

    private PortSettings portSettings() {
        BacnetOptions options = settings.options();
        return new PortSettings(
                settings.bind(),
                settings.port(),
                settings.broadcast(),
                new PeerLimits(options.requestsPerSecond(), PeerLimits.USUAL.waiting()),
                options.endlessSubscriptions(),
                options.foreignDevice()
                        .map(wanted -> new PortSettings.Registration(wanted.host(), wanted.port(), wanted.seconds())));
    }

    private Running serve(EdgePort port) throws BacnetStartException {
        BridgeDevice device = deviceOn(port);
        try {
            device.start();
        } catch (Exception e) {
            device.close();
            throw BacnetStartException.ofDevice(port.place(), clock.now(), e);
        }
        List<StepRunner> runners = new ArrayList<>();
        ChangeApplier applier = device.applier();
        runners.add(new StepRunner("bacnet apply", applier::step));
        if (!device.door().isEmpty()) {
            DoorKeeper keeper = new DoorKeeper(device.door(), clock);
            runners.add(new StepRunner("bacnet permits", keeper::step));
        }
        runners.forEach(StepRunner::start);
        return new Running(port, device, runners);
    }

    private BridgeDevice deviceOn(EdgePort port) {
        try {
            return new BridgeDevice(settings, site, plan, choices, table, port, clock, gate);
        } catch (RuntimeException e) {
            port.close();
            throw e;
        }
    }

    /** The UDP port that is really bound. */
    public synchronized int port() {
        return present()
                .orElseThrow(() -> new IllegalStateException("bacnet: not started"))
                .port()
                .port();
    }

    private Optional<Running> present() {
        return Optional.ofNullable(running);
    }

    /** How it stands with the registration as a foreign device; empty where none is wanted or nothing runs. */
    public synchronized Optional<ForeignDevice.State> foreignDevice() {
        return present().flatMap(run -> run.port().foreignDeviceState());
    }

    /** What the port has done; empty where nothing runs. */
    public synchronized Optional<PortCounters> counters() {
        return present().map(run -> run.port().counters());
    }

    /** Who is subscribed to what; empty where nothing runs. */
    public synchronized Optional<CovDesk> subscriptions() {
        return present().map(run -> run.device().subscriptions());
    }

    /** How many objects there are; the device object is not counted. */
    public int objectCount() {
        return plan.count();
    }

    /** The points that have no object, and why: a row that wants none, or a missing binding. */
    public List<ObjectPlan.PointOff> pointsOff() {
        return plan.off();
    }

    /** What is wrong with the network as this side sees it; nothing where nothing runs. */
    @Override
    public void tell(Consumer<Trouble> troubles) {
        Running present = running;
        if (present != null) {
            present.port().tell(troubles);
        }
    }

    /** What this side counts; nothing where nothing runs. */
    @Override
    public void measure(MetricSink sink) {
        Running present = running;
        if (present != null) {
            new BacnetFigures(present.port(), present.device(), plan.count()).measure(sink);
        }
    }

    /** Ends everything within some seconds; does nothing the second time. */
    @Override
    public synchronized void close() {
        closed = true;
        Running ending = running;
        if (ending != null) {
            running = null;
            ending.runners().forEach(StepRunner::close);
            ending.device().close();
            LOG.info("bacnet: device {} closed", settings.deviceInstance());
        }
    }
}
