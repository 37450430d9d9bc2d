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
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Objects;
import java.util.Optional;

/** Turns the registers of a point into its next reading. Pure: the same input gives the same reading. */
public final class Decoder {
    private static final BigInteger MOST_DECIMALS = BigInteger.valueOf(9);
    private static final BigInteger LARGEST_STATE = BigInteger.valueOf(Long.MAX_VALUE);

    private final PointDefinition point;
    private final Registers raw;
    private final Stamp askedAt;
    private final Reading before;

    private Decoder(PointDefinition point, Registers raw, Stamp askedAt, Reading before) {
        this.point = point;
        this.raw = raw;
        this.askedAt = askedAt;
        this.before = before;
    }

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
        return new Decoder(point, raw, askedAt, before).decode();
    }

    /**
     * As {@link #decode} for a point whose decimals another point holds, which was read with it.
     *
     * @param decimals the other point's reading; anything but a whole number of 0 to 9 makes this one
     *     unreadable
     */
    public static Reading decodeScaledBy(
            PointDefinition point, Registers raw, Reading decimals, Stamp askedAt, Reading before) {
        boolean usable = decimals.value() instanceof IntegerValue integer
                && integer.number().signum() >= 0
                && integer.number().compareTo(MOST_DECIMALS) <= 0;
        if (!usable) {
            return Reading.bad(Reason.UNREADABLE, askedAt, raw, before);
        }
        int count = ((IntegerValue) Objects.requireNonNull(decimals.value()))
                .number()
                .intValueExact();
        return decode(point.withDecimals(count), raw, askedAt, before);
    }

    private Reading decode() {
        PointFormat format = point.format();
        if (format instanceof PointFormat.Bit) {
            return good(new BitValue(raw.word(0) != 0));
        }
        if (format instanceof PointFormat.RegisterBit bit) {
            return good(new BitValue((raw.word(0) >> bit.index() & 1) == 1));
        }
        if (format instanceof PointFormat.Text text) {
            return goodOrUnreadable(Texts.read(text, raw));
        }
        if (format instanceof PointFormat.Epoch32 epoch) {
            return goodOrUnreadable(Calendars.epoch(epoch, raw));
        }
        if (format instanceof PointFormat.Calendar calendar) {
            return goodOrUnreadable(Calendars.fields(calendar, raw));
        }
        return number(RawNumbers.read(format, raw));
    }

    private Reading good(Value value) {
        return Reading.good(value, askedAt, raw);
    }

    private Reading bad(Reason reason) {
        return Reading.bad(reason, askedAt, raw, before);
    }

    private Reading goodOrUnreadable(Optional<? extends Value> value) {
        return value.isPresent() ? good(value.get()) : bad(Reason.UNREADABLE);
    }

    /** A pattern that says "no sensor" comes before everything that would be said of it as a number. */
    private Reading number(Raw number) {
        Limits limits = point.limits();
        if (limits.isNoValue(new BigDecimal(number.pattern()))) {
            return bad(Reason.NO_SENSOR);
        }
        if (number instanceof Raw.Wrong wrong) {
            return bad(wrong.reason());
        }
        if (number instanceof Raw.Fraction fraction) {
            return limits.isNoValue(fraction.number()) ? bad(Reason.NO_SENSOR) : real(fraction.number());
        }
        BigInteger whole = ((Raw.Whole) number).number();
        if (limits.isNoValue(new BigDecimal(whole))) {
            return bad(Reason.NO_SENSOR);
        }
        return point.states().isEmpty() ? wholeNumber(whole) : state(whole);
    }

    private Reading state(BigInteger number) {
        if (number.compareTo(LARGEST_STATE) > 0) {
            return bad(Reason.UNREADABLE);
        }
        long state = number.longValueExact();
        Optional<String> text = point.states().text(state);
        return text.isPresent()
                ? good(new StateValue(state, text.get()))
                : Reading.uncertain(new StateValue(state, null), Reason.UNKNOWN_STATE, askedAt, raw, before);
    }

    private Reading wholeNumber(BigInteger number) {
        if (point.scaling().isNone()) {
            return within(new BigDecimal(number), new IntegerValue(number));
        }
        BigDecimal scaled = point.scaling().apply(new BigDecimal(number));
        return within(scaled, new RealValue(scaled, point.scaling().decimals()));
    }

    /** As many decimals as the shortest decimal that means the raw number and its scaling have between them. */
    private Reading real(BigDecimal number) {
        Scaling scaling = point.scaling();
        BigDecimal scaled = scaling.apply(number);
        int decimals = scaling.line().isDecimal() ? scaled.scale() : Math.max(number.scale(), 0) + scaling.decimals();
        if (!Double.isFinite(scaled.doubleValue())) {
            return bad(Reason.NOT_A_NUMBER);
        }
        return within(scaled, new RealValue(scaled, Math.max(0, Math.min(RealValue.MOST_DECIMALS, decimals))));
    }

    private Reading within(BigDecimal scaled, Value value) {
        Optional<Limits.Range> valid = point.limits().valid();
        if (valid.isPresent() && scaled.compareTo(valid.get().high()) > 0) {
            return bad(Reason.OVER_RANGE);
        }
        if (valid.isPresent() && scaled.compareTo(valid.get().low()) < 0) {
            return bad(Reason.UNDER_RANGE);
        }
        return good(value);
    }
}
