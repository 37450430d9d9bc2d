package burnerbridge.bacnet.points;

import burnerbridge.model.Value;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import java.util.Optional;
import java.util.OptionalDouble;

/** A number as an Analog Input or Analog Value without priority array (ASHRAE 135, 12.2 and 12.4). */
final class AnalogPoint extends PointObject {
    private final double tellingChange;

    AnalogPoint(Frame frame) {
        super(frame, new Real(0));
        units(frame);
        set(
                PropertyIdentifier.covIncrement,
                new Real(frame.definition().change().floatValue()));
        tellingChange = TellingChange.of(frame.definition());
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.of(tellingChange);
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return Numeric.of(value)
                .map(number -> number.floatValue())
                .filter(number -> Float.isFinite(number))
                .map(Real::new);
    }
}
