package burnerbridge.bacnet.objects;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.cov.Subscriber;
import burnerbridge.bacnet.cov.Terms;
import burnerbridge.bacnet.cov.Watched;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.PropertyReference;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.enumerated.ErrorClass;
import com.serotonin.bacnet4j.type.enumerated.ErrorCode;
import com.serotonin.bacnet4j.type.enumerated.EventState;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import com.serotonin.bacnet4j.type.primitive.Boolean;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * An object with a present value and a word on how far it is to be trusted, which can be subscribed to. Only
 * properties that are true of it, none of which anybody on the network can write. It starts with a present
 * value that means nothing and says so by its reliability. Changed by one thread, read by others.
 */
public abstract class StatusObject extends PlainObject implements Watched {
    /** What can change, and so be subscribed to. */
    private static final Set<PropertyIdentifier> CHANGING = Set.of(
            PropertyIdentifier.presentValue,
            PropertyIdentifier.statusFlags,
            PropertyIdentifier.reliability,
            PropertyIdentifier.eventState,
            PropertyIdentifier.outOfService);

    private final CovDesk desk;

    /** @param meaningless the present value until the first good one */
    protected StatusObject(
            LocalDevice device, CovDesk desk, ObjectType type, int instance, String name, Encodable meaningless) {
        super(device, type, instance, name);
        this.desk = desk;
        set(PropertyIdentifier.presentValue, meaningless);
        set(PropertyIdentifier.reliability, Reliability.unreliableOther);
        set(PropertyIdentifier.statusFlags, new StatusFlags(false, true, false, false));
        // No event reporting yet, so normal whatever the reliability (ASHRAE 135, 12.2.8; from memory).
        set(PropertyIdentifier.eventState, EventState.normal);
        set(PropertyIdentifier.outOfService, Boolean.FALSE);
    }

    /**
     * Shows a value with its reliability; without one the last stays.
     *
     * <p>On the way to good the value comes before the reliability, and else after it, so that at no moment an
     * old value looks good.
     */
    protected final void show(Optional<Encodable> value, Reliability reliability) {
        boolean good = reliability.equals(Reliability.noFaultDetected);
        if (good) {
            value.ifPresent(v -> change(PropertyIdentifier.presentValue, v));
        }
        change(PropertyIdentifier.reliability, reliability);
        change(PropertyIdentifier.statusFlags, new StatusFlags(false, !good, false, false));
        if (!good) {
            value.ifPresent(v -> change(PropertyIdentifier.presentValue, v));
        }
        desk.changed(this);
    }

    private void change(PropertyIdentifier property, Encodable value) {
        if (!value.equals(get(property))) {
            writePropertyInternal(property, value);
        }
    }

    @Override
    public final ObjectIdentifier objectId() {
        return getId();
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.empty();
    }

    @Override
    public final void addCovSubscription(
            Address from,
            UnsignedInteger process,
            Boolean confirmed,
            @Nullable UnsignedInteger lifetime,
            @Nullable PropertyReference property,
            @Nullable Real increment)
            throws BACnetServiceException {
        checkCanChange(property);
        desk.subscribe(
                this,
                new Subscriber(from, process),
                watched(property),
                new Terms(confirmed.booleanValue(), lifetime == null ? 0 : lifetime.longValue(), increment));
    }

    private static @Nullable PropertyIdentifier watched(@Nullable PropertyReference property) {
        return property == null ? null : property.getPropertyIdentifier();
    }

    /** ASHRAE 135, 13.15.1.3. */
    private void checkCanChange(@Nullable PropertyReference property) throws BACnetServiceException {
        if (property == null) {
            return;
        }
        if (held(property.getPropertyIdentifier()) == null) {
            throw new BACnetServiceException(ErrorClass.property, ErrorCode.unknownProperty);
        }
        if (!CHANGING.contains(property.getPropertyIdentifier())) {
            throw new BACnetServiceException(ErrorClass.property, ErrorCode.notCovProperty);
        }
        if (property.getPropertyArrayIndex() != null) {
            throw new BACnetServiceException(ErrorClass.property, ErrorCode.propertyIsNotAnArray);
        }
    }

    @Override
    public final void removeCovSubscription(
            Address from, UnsignedInteger process, @Nullable PropertyReference property) {
        desk.cancel(getId(), new Subscriber(from, process), watched(property));
    }
}
