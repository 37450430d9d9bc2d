package burnerbridge.bacnet.points;

import burnerbridge.model.BitValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.States;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.BinaryPV;
import com.serotonin.bacnet4j.type.enumerated.Polarity;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.Optional;

/** A bit as a Binary Input or Binary Value (ASHRAE 135, 12.6 and 12.8). */
final class BinaryPoint extends PointObject {

    BinaryPoint(Frame frame) {
        super(frame, BinaryPV.inactive);
        if (frame.definition().object() == ObjectKind.BINARY_INPUT) {
            set(PropertyIdentifier.polarity, Polarity.normal);
        }
        States states = frame.definition().states();
        Optional<String> inactive = states.text(0);
        Optional<String> active = states.text(1);
        // 12.6.11: if one of the texts is there, both are.
        if (inactive.isPresent() && active.isPresent()) {
            text(PropertyIdentifier.inactiveText, inactive.get());
            text(PropertyIdentifier.activeText, active.get());
        }
    }

    @Override
    Optional<Encodable> encode(Value value) {
        if (value instanceof BitValue bit) {
            return Optional.of(bit.on() ? BinaryPV.active : BinaryPV.inactive);
        }
        if (value instanceof StateValue state && (state.number() == 0 || state.number() == 1)) {
            return Optional.of(state.number() == 1 ? BinaryPV.active : BinaryPV.inactive);
        }
        return Optional.empty();
    }
}
