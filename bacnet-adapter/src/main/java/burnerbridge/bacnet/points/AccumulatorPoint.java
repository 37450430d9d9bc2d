package burnerbridge.bacnet.points;

import burnerbridge.model.Value;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.Scale;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.SignedInteger;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A total as an Accumulator (ASHRAE 135, 12.1): the controller's own count, and by Scale what one of it is in
 * the unit. Max_Pres_Value is where the controller's count turns over. The standard's table of what can be
 * subscribed to does not have this type; here it is told like other numbers.
 */
final class AccumulatorPoint extends PointObject {
    private static final int MOST_BITS = 32;

    private final BigDecimal step;
    private final double tellingChange;

    AccumulatorPoint(Frame frame) {
        super(frame, new UnsignedInteger(0));
        units(frame);
        step = frame.definition().scaling().step();
        set(PropertyIdentifier.scale, scale(frame.definition().scaling()));
        set(
                PropertyIdentifier.maxPresValue,
                new UnsignedInteger(highest(frame.definition().format())));
        tellingChange = frame.definition()
                .change()
                .divide(step, MathContext.DECIMAL64)
                .setScale(0, RoundingMode.CEILING)
                .doubleValue();
    }

    /** A power of ten as such, which is exact; else a REAL. */
    static Scale scale(Scaling scaling) {
        BigDecimal plain = scaling.step().stripTrailingZeros();
        return plain.unscaledValue().equals(BigInteger.ONE)
                ? new Scale(new SignedInteger(-plain.scale()))
                : new Scale(new Real(plain.floatValue()));
    }

    /** The highest count that the controller's format holds. */
    static BigInteger highest(PointFormat format) {
        if (format instanceof PointFormat.Bcd bcd) {
            return BigInteger.TEN.pow(4 * bcd.registers()).subtract(BigInteger.ONE);
        }
        if (format instanceof PointFormat.DecimalWords words) {
            return BigInteger.TEN.pow(4 * words.registers()).subtract(BigInteger.ONE);
        }
        return BigInteger.TWO.pow(format.magnitudeBits()).subtract(BigInteger.ONE);
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.of(tellingChange);
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return Numeric.of(value)
                .map(number -> number.divide(step, 0, RoundingMode.HALF_EVEN).toBigInteger())
                .filter(count -> count.signum() >= 0 && count.bitLength() <= MOST_BITS)
                .map(UnsignedInteger::new);
    }
}
