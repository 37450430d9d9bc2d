package burnerbridge.bacnet.points;

import burnerbridge.model.Value;
import burnerbridge.site.ObjectKind;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.SignedInteger;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A whole number as an Integer Value or Positive Integer Value (ASHRAE 135, 12.43 and 12.44), of at most 32
 * bits, which is as much as clients can be trusted to read.
 */
final class IntegerPoint extends PointObject {
    private static final int MOST_BITS = 32;

    private final boolean positive;
    private final BigInteger tellingChange;

    IntegerPoint(Frame frame) {
        super(frame, number(BigInteger.ZERO, isPositive(frame)));
        positive = isPositive(frame);
        units(frame);
        tellingChange =
                frame.definition().change().setScale(0, RoundingMode.CEILING).toBigIntegerExact();
        set(PropertyIdentifier.covIncrement, new UnsignedInteger(tellingChange));
    }

    private static boolean isPositive(Frame frame) {
        return frame.definition().object() == ObjectKind.POSITIVE_INTEGER_VALUE;
    }

    private static Encodable number(BigInteger number, boolean positive) {
        return positive ? new UnsignedInteger(number) : new SignedInteger(number);
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.of(tellingChange.doubleValue());
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return Numeric.of(value).flatMap(Numeric::whole).filter(this::fits).map(number -> number(number, positive));
    }

    private boolean fits(BigInteger number) {
        return positive ? number.signum() >= 0 && number.bitLength() <= MOST_BITS : number.bitLength() < MOST_BITS;
    }
}
