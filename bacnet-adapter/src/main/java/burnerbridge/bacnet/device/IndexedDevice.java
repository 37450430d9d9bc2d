package burnerbridge.bacnet.device;

import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.transport.Transport;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The library's device with maps over its objects instead of a search through all of them at each request.
 * The library insists on a device object of its own with many properties that are not true of us; whoever
 * asks for the device is shown a {@link DeviceFace} instead.
 */
final class IndexedDevice extends LocalDevice {
    private static final Logger LOG = LoggerFactory.getLogger(IndexedDevice.class);

    private final @Nullable Map<ObjectIdentifier, BACnetObject> byId = new ConcurrentHashMap<>();
    private final @Nullable Map<String, BACnetObject> byName = new ConcurrentHashMap<>();

    IndexedDevice(int instance, Transport transport) {
        super(instance, transport);
    }

    /** Shows this object to everybody who asks for the device. */
    void show(DeviceFace face) {
        index(face);
    }

    /** The library's own list is copied for each object that is added, so only its device object gets there. */
    @Override
    public void addObject(BACnetObject object) throws BACnetServiceException {
        if (object.getId().getObjectType().equals(ObjectType.device)) {
            super.addObject(object);
        } else {
            index(object);
        }
    }

    private void index(BACnetObject object) {
        if (byId == null || byName == null) {
            throw new IllegalStateException("objects are added to a device that is made");
        }
        if (byId.putIfAbsent(object.getId(), object) != null
                || byName.putIfAbsent(object.getObjectName(), object) != null) {
            throw new IllegalStateException(object.getId() + " " + object.getObjectName() + " is there already");
        }
    }

    /** Instance 4194303 of the device type is whatever device is asked (ASHRAE 135, 15.5.2). */
    @Override
    public @Nullable BACnetObject getObject(ObjectIdentifier id) {
        // The super constructor asks before there are maps.
        if (byId == null) {
            return null;
        }
        boolean anyDevice = id.isUninitialized() && id.getObjectType().equals(ObjectType.device);
        return byId.get(anyDevice ? getId() : id);
    }

    @Override
    public @Nullable BACnetObject getObject(String name) {
        return byName == null ? null : byName.get(name);
    }

    @Override
    protected ScheduledExecutorService createScheduledExecutorService() {
        ScheduledThreadPoolExecutor timer = new ScheduledThreadPoolExecutor(1, work -> {
            Thread thread = new Thread(work, "bacnet timer");
            thread.setDaemon(true);
            thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{}: ended by an error", t.getName(), e));
            return thread;
        });
        timer.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        timer.setRemoveOnCancelPolicy(true);
        return timer;
    }
}
