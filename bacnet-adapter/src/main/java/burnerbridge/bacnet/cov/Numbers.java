package burnerbridge.bacnet.cov;

import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.primitive.Double;
import com.serotonin.bacnet4j.type.primitive.Enumerated;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.SignedInteger;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** The values between which there is a distance. */
final class Numbers {
    private Numbers() {}

    static OptionalDouble of(@Nullable Encodable value) {
        if (value instanceof Real real) {
            return OptionalDouble.of(real.floatValue());
        }
        if (value instanceof Double real) {
            return OptionalDouble.of(real.doubleValue());
        }
        if (value instanceof SignedInteger integer) {
            return OptionalDouble.of(integer.bigIntegerValue().doubleValue());
        }
        if (value instanceof UnsignedInteger integer && !(value instanceof Enumerated)) {
            return OptionalDouble.of(integer.bigIntegerValue().doubleValue());
        }
        return OptionalDouble.empty();
    }
}
