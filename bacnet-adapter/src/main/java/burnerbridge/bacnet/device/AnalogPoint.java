package burnerbridge.bacnet.device;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A number as an Analog Input (ASHRAE 135, 12.2). */
final class AnalogPoint extends PointObject {
    private final @Nullable Real subscribedIncrement;

    AnalogPoint(IndexedDevice device, ObjectPlan.Served served, SubscriptionCap cap) {
        super(
                device,
                ObjectType.analogInput,
                served,
                cap,
                new Real(0),
                new Real(served.point().definition().change().floatValue()));
        PointDefinition definition = served.point().definition();
        set(PropertyIdentifier.units, EngineeringUnits.forId(definition.unit().bacnetNumber()));
        subscribedIncrement = withRoomForRounding(definition);
    }

    /**
     * A change of exactly one step may come out a little less than the step between two REALs (20.3 and 20.2
     * differ by less than 0.1), and would not be told. A quarter of a step less tells it and tells nothing
     * else, as values lie whole steps apart.
     */
    private static @Nullable Real withRoomForRounding(PointDefinition definition) {
        BigDecimal step = definition.scaling().step();
        boolean stepped = !(definition.format() instanceof PointFormat.Floating);
        if (!stepped || definition.change().compareTo(step) < 0) {
            return null;
        }
        BigDecimal quarter = step.multiply(new BigDecimal("0.25"));
        return new Real(definition.change().subtract(quarter).floatValue());
    }

    @Override
    @Nullable
    Real subscribedIncrement() {
        return subscribedIncrement;
    }

    @Override
    Optional<Encodable> encode(Value value) {
        float number = number(value);
        return Float.isFinite(number) ? Optional.of(new Real(number)) : Optional.empty();
    }

    private static float number(Value value) {
        if (value instanceof RealValue real) {
            return (float) real.number();
        }
        if (value instanceof IntegerValue integer) {
            return integer.number().floatValue();
        }
        if (value instanceof StateValue state) {
            return state.number();
        }
        if (value instanceof BitValue bit) {
            return bit.on() ? 1 : 0;
        }
        return Float.NaN;
    }
}
