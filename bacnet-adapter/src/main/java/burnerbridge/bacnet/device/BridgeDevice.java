package burnerbridge.bacnet.device;

import burnerbridge.bacnet.edge.EdgePort;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.DeviceObject;
import com.serotonin.bacnet4j.transport.DefaultTransport;
import com.serotonin.bacnet4j.transport.Transport;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Unsigned16;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One BACnet device on an open port, with its objects. Made, started once, closed; a failed start is closed
 * too. Beside its own timer it has the library's transport thread.
 */
public final class BridgeDevice implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(BridgeDevice.class);
    /** Subscriptions of all peers together: one for each object that a device should have at most. */
    private static final int MOST_SUBSCRIPTIONS = 10_000;

    private static final long STOP_MILLIS = 3000;

    private final EdgePort port;
    private final IndexedDevice device;
    private final ChangeApplier applier;

    /** Makes the objects; nothing is sent or received yet. */
    public BridgeDevice(
            BacnetSettings settings,
            String description,
            ObjectPlan plan,
            ValueTable table,
            EdgePort port,
            BridgeClock clock) {
        MonotonicClock libraryClock = new MonotonicClock(clock);
        LimitedLog trouble = new LimitedLog(LOG, clock);
        Transport transport = new DefaultTransport(port);
        this.port = port;
        this.device = new IndexedDevice(settings.deviceInstance(), transport);
        device.setClock(libraryClock);
        device.setPersistence(new NothingKept());
        device.getExceptionDispatcher().removeDefaultExceptionListener();
        device.getExceptionDispatcher().addListener(new LibraryTrouble(trouble));
        tellLibraryOfItself(device.getDeviceObject(), settings);
        SubscriptionCap cap = new SubscriptionCap(device.getCovContexts(), libraryClock, MOST_SUBSCRIPTIONS);
        Map<SitePoint, PointObject> objects = objects(plan, cap);
        device.show(new DeviceFace(device, transport, settings, description, List.copyOf(objects.values())));
        this.applier = new ChangeApplier(table, objects, trouble);
        applier.catchUp();
    }

    /** What the library's own device object must say for its I-Am and its dispatch of services to be right. */
    private static void tellLibraryOfItself(DeviceObject own, BacnetSettings settings) {
        own.writePropertyInternal(PropertyIdentifier.maxApduLengthAccepted, DeviceFace.LONGEST.getMaxLength());
        own.writePropertyInternal(PropertyIdentifier.segmentationSupported, DeviceFace.SEGMENTATION);
        own.writePropertyInternal(PropertyIdentifier.vendorIdentifier, new Unsigned16(settings.vendorIdentifier()));
        own.writePropertyInternal(PropertyIdentifier.protocolServicesSupported, DeviceFace.services());
    }

    private Map<SitePoint, PointObject> objects(ObjectPlan plan, SubscriptionCap cap) {
        Map<SitePoint, PointObject> objects = new LinkedHashMap<>();
        for (ObjectPlan.Served served : plan.served()) {
            objects.put(served.point(), add(object(served, cap)));
        }
        return objects;
    }

    private PointObject object(ObjectPlan.Served served, SubscriptionCap cap) {
        return switch (served.point().definition().object()) {
            case ANALOG_INPUT -> new AnalogPoint(device, served, cap);
            case BINARY_INPUT -> new BinaryPoint(device, served, cap);
            case MULTI_STATE_INPUT -> new MultiStatePoint(device, served, cap);
            case NONE -> throw new IllegalArgumentException(served.point().id() + " has no object");
        };
    }

    private PointObject add(PointObject object) {
        try {
            device.addObject(object);
            return object;
        } catch (BACnetServiceException e) {
            throw new IllegalStateException("the plan holds " + object.getId() + " twice", e);
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

    /** Ends everything within a few seconds, the port too. */
    @Override
    public void close() {
        applier.close();
        port.close();
        // The library waits for its transport thread without a bound, so it is ended on a thread of its own.
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
