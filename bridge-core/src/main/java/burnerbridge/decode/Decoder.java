package burnerbridge.decode;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import java.math.BigDecimal;

/** Turns the registers of a point into its next reading. Pure: the same input gives the same reading. */
public final class Decoder {
    private Decoder() {}

    /**
     * @param raw exactly the registers of the point
     * @param askedAt when they were asked for
     * @param before the point's reading until now, whose last good value is kept where this one is not
     *     good
     */
    public static Reading decode(PointDefinition point, Registers raw, Stamp askedAt, Reading before) {
        if (raw.count() != point.format().width()) {
            throw new IllegalArgumentException(
                    point.name() + " takes " + point.format().width() + " registers (was " + raw.count() + ")");
        }
        PointFormat format = point.format();
        if (format instanceof PointFormat.Bit) {
            return Reading.good(new BitValue(raw.word(0) != 0), askedAt, raw);
        }
        if (format instanceof PointFormat.RegisterBit bit) {
            return Reading.good(new BitValue((raw.word(0) >> bit.index() & 1) == 1), askedAt, raw);
        }
        if (format instanceof PointFormat.Float32 float32) {
            return decodeFloat(point, Words.float32(raw, float32.order()), raw, askedAt, before);
        }
        long number = format instanceof PointFormat.Int16 ? (short) raw.word(0) : raw.word(0);
        return decodeInteger(point, number, raw, askedAt, before);
    }

    private static Reading decodeInteger(
            PointDefinition point, long number, Registers raw, Stamp askedAt, Reading before) {
        if (!point.states().isEmpty()) {
            StateValue state =
                    new StateValue(number, point.states().text(number).orElse(null));
            return state.knownLabel().isPresent()
                    ? Reading.good(state, askedAt, raw)
                    : Reading.uncertain(state, Reason.UNKNOWN_STATE, askedAt, raw, before);
        }
        Value value =
                point.scaling().isNone() ? IntegerValue.of(number) : real(point.scaling(), BigDecimal.valueOf(number));
        return Reading.good(value, askedAt, raw);
    }

    private static Reading decodeFloat(
            PointDefinition point, float number, Registers raw, Stamp askedAt, Reading before) {
        if (!Float.isFinite(number)) {
            return Reading.bad(Reason.NOT_A_NUMBER, askedAt, raw, before);
        }
        // The shortest decimal that means this float: 123.456 rather than 123.45600128173828.
        BigDecimal shortest = new BigDecimal(Float.toString(number));
        return Reading.good(real(point.scaling(), shortest.stripTrailingZeros()), askedAt, raw);
    }

    /** As many decimals as scale, offset and raw value have between them. */
    private static RealValue real(Scaling scaling, BigDecimal raw) {
        BigDecimal exact = scaling.apply(raw);
        int decimals = Math.max(0, Math.min(RealValue.MOST_DECIMALS, exact.scale()));
        return new RealValue(exact.doubleValue(), decimals);
    }
}
