package burnerbridge.bacnet.points;

import burnerbridge.model.Value;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.primitive.CharacterString;
import java.util.Optional;

/** Text, or a number of more than 32 bits in digits, as a CharacterString Value (ASHRAE 135, 12.37). */
final class TextPoint extends PointObject {

    TextPoint(Frame frame) {
        super(frame, new CharacterString(""));
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return Optional.of(new CharacterString(value.text()));
    }
}
