package burnerbridge.bacnet.device;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.door.Door;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.EdgePort;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.exchange.Exchange;
import burnerbridge.bacnet.exchange.Timing;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReentrantLock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One BACnet device on an open port, with its objects. Made, started once, closed; a failed start is closed
 * too. Beside the thread of its {@link Exchange} it has a timer of the library's, which rests.
 */
public final class BridgeDevice implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(BridgeDevice.class);
    private static final long STOP_MILLIS = 3000;
    private static final long SWEEP_NANOS = 10_000_000_000L;

    private final EdgePort port;
    private final BridgeClock clock;
    private final IndexedDevice device;
    private final CovDesk desk;
    private final Door door;
    private final ChangeApplier applier;
    private long nextSweep;

    /** Makes the objects; nothing is sent or received yet. */
    public BridgeDevice(
            BacnetSettings settings,
            Site site,
            ObjectPlan plan,
            ObjectChoices choices,
            ValueTable table,
            EdgePort port,
            BridgeClock clock,
            Gate gate) {
        Lock whole = new ReentrantLock();
        LimitedLog trouble = new LimitedLog(LOG, clock);
        Exchange exchange = new Exchange(port, port.requests(), Timing.USUAL, clock, whole);
        DeviceObjects objects = DeviceObjects.make(settings, site, plan, choices, exchange, clock, trouble, gate);
        this.port = port;
        this.clock = clock;
        this.device = objects.device();
        this.desk = objects.desk();
        this.door = objects.door();
        this.nextSweep = clock.ticks() + SWEEP_NANOS;
        this.applier = new ChangeApplier(table, objects.served(), whole);
        exchange.afterEach(this::afterEach);
        applier.catchUp();
    }

    private void afterEach() {
        desk.tellFresh();
        port.step();
        long now = clock.ticks();
        if (now - nextSweep >= 0) {
            nextSweep = now + SWEEP_NANOS;
            desk.sweep();
        }
    }

    /**
     * Begins to serve and tells everybody of the device by an I-Am, as soon as somebody would hear it. Throws whatever the library throws where it
     * cannot start.
     */
    public void start() throws Exception {
        device.initialize();
        port.listen(new LibraryDirectory(device), door, () -> device.sendGlobalBroadcast(device.getIAm()));
    }

    /** What carries changes over; its owner steps it. */
    public ChangeApplier applier() {
        return applier;
    }

    /** What permitted points are asked for by. */
    public Door door() {
        return door;
    }

    /** Who is subscribed to what. */
    public CovDesk subscriptions() {
        return desk;
    }

    /** Ends everything within a few seconds, the port too. */
    @Override
    public void close() {
        applier.close();
        port.close();
        // The library waits for its timer for longer than we do, so it is ended on a thread of its own.
        Thread stop = new Thread(device::terminate, "bacnet stop");
        stop.setDaemon(true);
        stop.setUncaughtExceptionHandler((t, e) -> LOG.error("{}: ended by an error", t.getName(), e));
        stop.start();
        try {
            stop.join(STOP_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (stop.isAlive()) {
            LOG.warn("{}: the library did not end within {} ms", port.place(), STOP_MILLIS);
        }
    }
}
