package burnerbridge.bacnet.points;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.CharacterString;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A state as a Multi-state Input or Multi-state Value (ASHRAE 135, 12.18 and 12.20). Its numbers are those of the bindings: one that the
 * list has dropped keeps its place and says that it is not used, and a state without a number is a fault.
 */
final class MultiStatePoint extends PointObject {
    private final StateNumbers states;

    MultiStatePoint(Frame frame) {
        super(frame, new UnsignedInteger(1));
        states = frame.served().states();
        States listed = frame.definition().states();
        set(PropertyIdentifier.numberOfStates, new UnsignedInteger(states.count()));
        set(
                PropertyIdentifier.stateText,
                new BACnetArray<>(
                        states.texts(listed).stream().map(CharacterString::new).toList()));
    }

    @Override
    Optional<Encodable> encode(Value value) {
        if (value instanceof StateValue state) {
            return stateNumber(state.number());
        }
        if (value instanceof IntegerValue integer && integer.number().bitLength() < Long.SIZE) {
            return stateNumber(integer.number().longValue());
        }
        if (value instanceof BitValue bit) {
            return stateNumber(bit.on() ? 1 : 0);
        }
        return Optional.empty();
    }

    private Optional<Encodable> stateNumber(long number) {
        OptionalInt given = states.of(number);
        return given.isPresent() ? Optional.of(new UnsignedInteger(given.getAsInt())) : Optional.empty();
    }
}
