package burnerbridge.bacnet.device;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.edge.frame.SegmentLimits;
import burnerbridge.bacnet.edge.service.TakenService;
import burnerbridge.bacnet.edge.service.WriteService;
import burnerbridge.bacnet.objects.PlainObject;
import burnerbridge.bacnet.plan.Kinds;
import burnerbridge.site.BacnetSettings;
import com.serotonin.bacnet4j.enums.MaxApduLength;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.transport.Transport;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.constructed.ObjectTypesSupported;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import com.serotonin.bacnet4j.type.constructed.ServicesSupported;
import com.serotonin.bacnet4j.type.enumerated.DeviceStatus;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Segmentation;
import com.serotonin.bacnet4j.type.primitive.Null;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.Unsigned16;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;

/**
 * The device as the network sees it (ASHRAE 135, 12.11): what the standard asks for, and no property that
 * would not be true. Restart notifications are left out, since nobody is notified.
 */
final class DeviceFace extends PlainObject {
    static final MaxApduLength LONGEST = MaxApduLength.UP_TO_1476;
    static final Segmentation SEGMENTATION = Segmentation.segmentedBoth;
    private static final int ACTIVE_COV_SUBSCRIPTIONS = 152;
    private static final int LOCAL_DATE = 56;
    private static final int LOCAL_TIME = 57;
    private static final int UTC_OFFSET = 119;
    private static final int DAYLIGHT_SAVINGS_STATUS = 24;
    private static final int PROTOCOL_VERSION = 1;
    /** The first with Property_List; from 17 on a Network Port object would be due. */
    private static final int PROTOCOL_REVISION = 14;

    private final CovDesk desk;
    private final LocalTimes times;

    /**
     * The objects are all there are: the list is made once.
     *
     * @param writes whether anything of them can be asked for
     */
    DeviceFace(
            IndexedDevice device,
            Transport transport,
            BacnetSettings settings,
            String description,
            CovDesk desk,
            LocalTimes times,
            List<? extends BACnetObject> objects,
            boolean writes) {
        super(device, ObjectType.device, settings.deviceInstance(), settings.deviceName());
        this.desk = desk;
        this.times = times;
        text(PropertyIdentifier.description, description);
        text(PropertyIdentifier.vendorName, "not assigned");
        text(PropertyIdentifier.modelName, "Burner Bridge");
        text(PropertyIdentifier.firmwareRevision, Version.text());
        text(PropertyIdentifier.applicationSoftwareVersion, Version.text());
        set(PropertyIdentifier.systemStatus, DeviceStatus.operational);
        set(PropertyIdentifier.vendorIdentifier, new Unsigned16(settings.vendorIdentifier()));
        number(PropertyIdentifier.protocolVersion, PROTOCOL_VERSION);
        number(PropertyIdentifier.protocolRevision, PROTOCOL_REVISION);
        set(PropertyIdentifier.protocolServicesSupported, services(writes));
        set(PropertyIdentifier.protocolObjectTypesSupported, objectTypes());
        communication(transport);
        contents(objects);
        // So that they are in Property_List; what they hold is worked out at each read.
        List.of(
                        PropertyIdentifier.localDate,
                        PropertyIdentifier.localTime,
                        PropertyIdentifier.utcOffset,
                        PropertyIdentifier.daylightSavingsStatus,
                        PropertyIdentifier.activeCovSubscriptions)
                .forEach(property -> set(property, Null.instance));
    }

    @Override
    public @Nullable Encodable held(PropertyIdentifier property) {
        return switch (property.intValue()) {
            case ACTIVE_COV_SUBSCRIPTIONS -> desk.active();
            case LOCAL_DATE -> times.date();
            case LOCAL_TIME -> times.time();
            case UTC_OFFSET -> times.utcOffset();
            case DAYLIGHT_SAVINGS_STATUS -> times.daylightSavings();
            default -> super.held(property);
        };
    }

    private void communication(Transport transport) {
        set(PropertyIdentifier.maxApduLengthAccepted, LONGEST.getMaxLength());
        set(PropertyIdentifier.segmentationSupported, SEGMENTATION);
        number(PropertyIdentifier.maxSegmentsAccepted, SegmentLimits.MOST_SEGMENTS);
        number(PropertyIdentifier.apduSegmentTimeout, transport.getSegTimeout());
        number(PropertyIdentifier.apduTimeout, transport.getTimeout());
        number(PropertyIdentifier.numberOfApduRetries, transport.getRetries());
        set(PropertyIdentifier.deviceAddressBinding, new SequenceOf<>());
    }

    private void contents(List<? extends BACnetObject> objects) {
        List<ObjectIdentifier> ids = new ArrayList<>();
        ids.add(getId());
        objects.forEach(o -> ids.add(o.getId()));
        set(PropertyIdentifier.objectList, new BACnetArray<>(ids));
        set(PropertyIdentifier.databaseRevision, new UnsignedInteger(fingerprint(objects)));
    }

    /**
     * Database_Revision as a checksum over identifiers and names: it changes exactly when they do, also over
     * a restart, without anything kept on disk.
     */
    private static long fingerprint(List<? extends BACnetObject> objects) {
        CRC32 checksum = new CRC32();
        for (BACnetObject object : objects) {
            String line = object.getId() + " " + object.getObjectName() + "\n";
            checksum.update(line.getBytes(StandardCharsets.UTF_8));
        }
        return checksum.getValue();
    }

    /**
     * Exactly what passes the edge, and what is decided there.
     *
     * @param writes whether anything can be asked for
     */
    static ServicesSupported services(boolean writes) {
        ServicesSupported services = new ServicesSupported();
        for (TakenService service : TakenService.values()) {
            services.getValue()[service.supportedBit()] = true;
        }
        for (WriteService service : WriteService.values()) {
            services.getValue()[service.supportedBit()] = writes;
        }
        return services;
    }

    private static ObjectTypesSupported objectTypes() {
        ObjectTypesSupported types = new ObjectTypesSupported();
        types.set(ObjectType.device, true);
        Kinds.types().forEach(type -> types.set(type, true));
        return types;
    }
}
