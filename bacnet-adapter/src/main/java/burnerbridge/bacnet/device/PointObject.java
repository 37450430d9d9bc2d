package burnerbridge.bacnet.device;

import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Value;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.mixin.CovReportingMixin;
import com.serotonin.bacnet4j.obj.mixin.HasStatusFlagsMixin;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.PropertyReference;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.enumerated.EventState;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import com.serotonin.bacnet4j.type.primitive.Boolean;
import com.serotonin.bacnet4j.type.primitive.CharacterString;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * An object that shows a point: only the properties that are true of it, none of which anybody on the
 * network can write. It starts with a present value that means nothing and says so by its reliability.
 * Changed by one thread, read by the library's.
 */
abstract class PointObject extends PlainObject {
    private final SubscriptionCap cap;
    private final boolean ofStates;

    /**
     * @param meaningless the present value until the first good reading
     * @param increment for types that have a COV_Increment, else null
     */
    PointObject(
            IndexedDevice device,
            ObjectType type,
            ObjectPlan.Served served,
            SubscriptionCap cap,
            Encodable meaningless,
            @Nullable Real increment) {
        super(device, type, served.instance(), served.point().objectName());
        this.cap = cap;
        this.ofStates = type.equals(ObjectType.multiStateInput);
        set(
                PropertyIdentifier.description,
                new CharacterString(served.point().definition().descriptionWithBasis()));
        set(PropertyIdentifier.presentValue, meaningless);
        set(PropertyIdentifier.reliability, Reliabilities.of(Reason.NOT_READ_YET, ofStates));
        set(PropertyIdentifier.statusFlags, new StatusFlags(false, true, false, false));
        // No event reporting yet, so normal whatever the reliability (ASHRAE 135, 12.2.8; from memory).
        set(PropertyIdentifier.eventState, EventState.normal);
        set(PropertyIdentifier.outOfService, Boolean.FALSE);
        addMixin(new HasStatusFlagsMixin(this));
        addMixin(new CovReportingMixin(this, increment, null));
    }

    /** A value as this type of object shows it; empty where it cannot. */
    abstract Optional<Encodable> encode(Value value);

    /**
     * Shows a reading. While it has no value the last one stays, with a reliability that says why.
     *
     * <p>On the way to good the value comes before the reliability, and else after it, so that at no moment
     * an old value looks good.
     */
    final void apply(Reading reading) {
        Optional<Encodable> value = shownOf(reading).flatMap(this::encode);
        Reliability reliability = Reliabilities.of(reasonOf(reading, value.isPresent()), ofStates);
        if (reliability.equals(Reliability.noFaultDetected)) {
            value.ifPresent(v -> change(PropertyIdentifier.presentValue, v));
            change(PropertyIdentifier.reliability, reliability);
        } else {
            change(PropertyIdentifier.reliability, reliability);
            value.ifPresent(v -> change(PropertyIdentifier.presentValue, v));
        }
    }

    /** The value of a reading; where it has none that counts, the last good one. */
    private static Optional<Value> shownOf(Reading reading) {
        return hasValue(reading)
                ? Optional.ofNullable(reading.value())
                : reading.newestGood().map(Reading.Good::value);
    }

    private static boolean hasValue(Reading reading) {
        return reading.value() != null && reading.reason() != Reason.NOT_APPLICABLE;
    }

    /** The reason of a reading, unless it has a value that this type of object cannot show. */
    private Reason reasonOf(Reading reading, boolean encoded) {
        if (encoded || !hasValue(reading)) {
            return reading.reason();
        }
        return ofStates ? Reason.UNKNOWN_STATE : Reason.UNREADABLE;
    }

    private void change(PropertyIdentifier property, Encodable value) {
        if (!value.equals(get(property))) {
            writePropertyInternal(property, value);
        }
    }

    /** The change that a subscription waits for where it states none; null takes COV_Increment as it is. */
    @Nullable
    Real subscribedIncrement() {
        return null;
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
        cap.admit(getId(), from, process);
        Real waitedFor = increment == null ? subscribedIncrement() : increment;
        super.addCovSubscription(from, process, confirmed, lifetime, property, waitedFor);
    }
}
