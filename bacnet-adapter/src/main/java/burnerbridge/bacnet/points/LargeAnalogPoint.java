package burnerbridge.bacnet.points;

import burnerbridge.model.Value;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Double;
import java.util.Optional;
import java.util.OptionalDouble;

/** A number that needs more digits than a REAL has, as a Large Analog Value (ASHRAE 135, 12.42). */
final class LargeAnalogPoint extends PointObject {
    private final double tellingChange;

    LargeAnalogPoint(Frame frame) {
        super(frame, new Double(0));
        units(frame);
        set(
                PropertyIdentifier.covIncrement,
                new Double(frame.definition().change().doubleValue()));
        tellingChange = TellingChange.of(frame.definition());
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.of(tellingChange);
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return Numeric.of(value)
                .map(number -> number.doubleValue())
                .filter(number -> java.lang.Double.isFinite(number))
                .map(Double::new);
    }
}
