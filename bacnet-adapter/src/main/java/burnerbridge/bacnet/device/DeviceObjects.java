package burnerbridge.bacnet.device;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.cov.CovLimits;
import burnerbridge.bacnet.door.Door;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.exchange.Exchange;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.bacnet.served.ServedObjects;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.obj.DeviceObject;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Unsigned16;
import java.util.List;

/** A device with all its objects, not started. */
record DeviceObjects(IndexedDevice device, CovDesk desk, ServedObjects served, Door door, DeviceFace face) {

    static DeviceObjects make(
            BacnetSettings settings,
            Site site,
            ObjectPlan plan,
            ObjectChoices choices,
            Exchange exchange,
            BridgeClock clock,
            LimitedLog trouble,
            Gate gate) {
        IndexedDevice device = new IndexedDevice(settings.deviceInstance(), exchange);
        CovDesk desk = new CovDesk(device.getId(), exchange, clock, limits(settings));
        device.setClock(new MonotonicClock(clock));
        device.setPersistence(new NothingKept());
        device.getExceptionDispatcher().removeDefaultExceptionListener();
        device.getExceptionDispatcher().addListener(new LibraryTrouble(trouble));
        Door door = new Door(plan, choices, device, desk, gate);
        tellLibraryOfItself(device.getDeviceObject(), settings, !door.isEmpty());
        ServedObjects served = new ServedObjects(plan, choices, device, desk, door, trouble);
        List<BACnetObject> all = served.all();
        all.forEach(object -> add(object, device));
        DeviceFace face = new DeviceFace(
                device,
                exchange,
                settings,
                site.description(),
                desk,
                new LocalTimes(clock, site.zone()),
                all,
                !door.isEmpty());
        device.show(face);
        return new DeviceObjects(device, desk, served, door, face);
    }

    private static CovLimits limits(BacnetSettings settings) {
        return new CovLimits(settings.options().subscriptions(), CovLimits.USUAL.inAll(), CovLimits.USUAL.waiting());
    }

    /** What the library's own device object must say for its I-Am and its dispatch of services to be right. */
    private static void tellLibraryOfItself(DeviceObject own, BacnetSettings settings, boolean writes) {
        own.writePropertyInternal(PropertyIdentifier.maxApduLengthAccepted, DeviceFace.LONGEST.getMaxLength());
        own.writePropertyInternal(PropertyIdentifier.segmentationSupported, DeviceFace.SEGMENTATION);
        own.writePropertyInternal(PropertyIdentifier.vendorIdentifier, new Unsigned16(settings.vendorIdentifier()));
        own.writePropertyInternal(PropertyIdentifier.protocolServicesSupported, DeviceFace.services(writes));
    }

    private static void add(BACnetObject object, IndexedDevice device) {
        try {
            device.addObject(object);
        } catch (BACnetServiceException e) {
            throw new IllegalStateException("the plan holds " + object.getId() + " twice", e);
        }
    }
}
