package burnerbridge.bacnet.device;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.cov.CovLimits;
import burnerbridge.bacnet.edge.EdgePort;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.exchange.Exchange;
import burnerbridge.bacnet.exchange.Timing;
import burnerbridge.bacnet.objects.ObjectChoices;
import burnerbridge.bacnet.objects.ObjectPlan;
import burnerbridge.bacnet.objects.ServedObjects;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.obj.DeviceObject;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Unsigned16;
import java.util.List;
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
            BridgeClock clock) {
        Lock whole = new ReentrantLock();
        LimitedLog trouble = new LimitedLog(LOG, clock);
        Exchange exchange = new Exchange(port, port.requests(), Timing.USUAL, clock, whole);
        this.port = port;
        this.clock = clock;
        this.device = new IndexedDevice(settings.deviceInstance(), exchange);
        this.desk = new CovDesk(device.getId(), exchange, clock, limits(settings));
        exchange.afterEach(this::afterEach);
        device.setClock(new MonotonicClock(clock));
        device.setPersistence(new NothingKept());
        device.getExceptionDispatcher().removeDefaultExceptionListener();
        device.getExceptionDispatcher().addListener(new LibraryTrouble(trouble));
        tellLibraryOfItself(device.getDeviceObject(), settings);
        ServedObjects objects = new ServedObjects(plan, choices, device, desk, trouble);
        List<BACnetObject> all = objects.all();
        all.forEach(this::add);
        device.show(new DeviceFace(
                device, exchange, settings, site.description(), desk, new LocalTimes(clock, site.zone()), all));
        this.nextSweep = clock.ticks() + SWEEP_NANOS;
        this.applier = new ChangeApplier(table, objects, whole);
        applier.catchUp();
    }

    private static CovLimits limits(BacnetSettings settings) {
        return new CovLimits(settings.options().subscriptions(), CovLimits.USUAL.inAll(), CovLimits.USUAL.waiting());
    }

    /** What the library's own device object must say for its I-Am and its dispatch of services to be right. */
    private static void tellLibraryOfItself(DeviceObject own, BacnetSettings settings) {
        own.writePropertyInternal(PropertyIdentifier.maxApduLengthAccepted, DeviceFace.LONGEST.getMaxLength());
        own.writePropertyInternal(PropertyIdentifier.segmentationSupported, DeviceFace.SEGMENTATION);
        own.writePropertyInternal(PropertyIdentifier.vendorIdentifier, new Unsigned16(settings.vendorIdentifier()));
        own.writePropertyInternal(PropertyIdentifier.protocolServicesSupported, DeviceFace.services());
    }

    private void add(BACnetObject object) {
        try {
            device.addObject(object);
        } catch (BACnetServiceException e) {
            throw new IllegalStateException("the plan holds " + object.getId() + " twice", e);
        }
    }

    private void afterEach() {
        desk.tellFresh();
        long now = clock.ticks();
        if (now - nextSweep >= 0) {
            nextSweep = now + SWEEP_NANOS;
            desk.sweep();
        }
    }

    /**
     * Begins to serve and tells everybody of the device by an I-Am. Throws whatever the library throws where it
     * cannot start.
     */
    public void start() throws Exception {
        device.initialize();
        port.listen(new LibraryDirectory(device));
        device.sendGlobalBroadcast(device.getIAm());
    }

    /** What carries changes over; its owner steps it. */
    public ChangeApplier applier() {
        return applier;
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
