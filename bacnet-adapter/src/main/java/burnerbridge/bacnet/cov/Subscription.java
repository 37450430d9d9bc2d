package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.PropertyValue;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import java.util.Objects;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * One subscription with what its subscriber was told last. Guarded by its desk.
 *
 * <p>An object's subscription and one to its Present_Value or Status_Flags report the same two properties; one
 * to another property reports that and Status_Flags (ASHRAE 135, tables 13-1 and 13-1a).
 */
final class Subscription {
    final Watched object;
    final Subscriber subscriber;
    /** Null for the whole object. */
    final @Nullable PropertyIdentifier property;

    private Terms terms;
    private long endsAt;
    private @Nullable Encodable toldValue;
    private @Nullable Encodable toldFlags;
    /** Whether it stands in its peer's queue. */
    boolean queued;

    Subscription(Watched object, Subscriber subscriber, @Nullable PropertyIdentifier property, Terms terms) {
        this.object = object;
        this.subscriber = subscriber;
        this.property = property;
        this.terms = terms;
    }

    /** Begins anew, by a renewal or for the first time. */
    void renew(Terms agreed, long now) {
        terms = agreed;
        endsAt = now + agreed.lifetime() * 1_000_000_000L;
        toldFlags = null;
        toldValue = null;
    }

    boolean confirmed() {
        return terms.confirmed();
    }

    @Nullable
    Real increment() {
        return terms.increment();
    }

    boolean isOver(long now) {
        return terms.lifetime() != 0 && endsAt - now <= 0;
    }

    /** At least 1 while it lives; 0 for one without end. */
    long secondsLeft(long now) {
        return terms.lifetime() == 0 ? 0 : Math.max(1, (endsAt - now + 500_000_000L) / 1_000_000_000L);
    }

    PropertyIdentifier reported() {
        return property == null || property.equals(PropertyIdentifier.statusFlags)
                ? PropertyIdentifier.presentValue
                : property;
    }

    /** Whether what the object holds now is worth telling. */
    boolean isDue() {
        Encodable value = object.held(reported());
        return !Objects.equals(toldFlags, object.held(PropertyIdentifier.statusFlags))
                || (!Objects.equals(toldValue, value) && isFarEnough(value));
    }

    private boolean isFarEnough(@Nullable Encodable value) {
        OptionalDouble before = Numbers.of(toldValue);
        OptionalDouble after = Numbers.of(value);
        OptionalDouble enough = enough();
        return before.isEmpty()
                || after.isEmpty()
                || enough.isEmpty()
                || Math.abs(after.getAsDouble() - before.getAsDouble()) >= enough.getAsDouble();
    }

    private OptionalDouble enough() {
        Real stated = terms.increment();
        if (stated != null) {
            return OptionalDouble.of(stated.floatValue());
        }
        return reported().equals(PropertyIdentifier.presentValue) ? object.tellingChange() : OptionalDouble.empty();
    }

    /** What to tell now, taken as told. */
    SequenceOf<PropertyValue> values() {
        SequenceOf<PropertyValue> values = new SequenceOf<>();
        toldValue = object.held(reported());
        toldFlags = object.held(PropertyIdentifier.statusFlags);
        if (toldValue != null) {
            values.add(new PropertyValue(reported(), toldValue));
        }
        if (toldFlags != null) {
            values.add(new PropertyValue(PropertyIdentifier.statusFlags, toldFlags));
        }
        return values;
    }

    boolean isFor(Subscriber who, @Nullable PropertyIdentifier what) {
        return subscriber.equals(who) && Objects.equals(property, what);
    }
}
