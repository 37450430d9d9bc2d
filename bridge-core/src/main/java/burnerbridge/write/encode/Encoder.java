package burnerbridge.write.encode;

import burnerbridge.model.Registers;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * From a value to the registers that hold it: the way back of decoding, to the nearest step. Pure. A value that no
 * register of its format can hold has no encoding; nothing is ever cut off or wrapped round.
 */
public final class Encoder {
    private static final BigInteger DECIMAL_WORD = BigInteger.valueOf(10_000);
    /** More than any register can tell apart, so that the one rounding is that to a step. */
    private static final MathContext DIGITS = new MathContext(60, RoundingMode.HALF_EVEN);
    /** Larger numbers, and smaller fractions, have no registers; and to write them out would take the memory. */
    private static final int MOST_DIGITS = 400;

    private final PointDefinition point;

    private Encoder(PointDefinition point) {
        this.point = point;
    }

    /**
     * @param value in the point's unit as it is shown; the number of a state; 0 or 1 of a bit
     * @return empty where the point's registers cannot hold it
     * @throws IllegalArgumentException for a point that {@link #isPossible} excludes
     */
    public static Optional<Encoded> encode(PointDefinition point, BigDecimal value) {
        if (!isPossible(point)) {
            throw new IllegalArgumentException(
                    point.name() + " cannot be written: it is " + point.format().word());
        }
        boolean sound = Math.abs((long) value.scale()) <= MOST_DIGITS && value.precision() <= MOST_DIGITS;
        return sound ? new Encoder(point).encode(value) : Optional.empty();
    }

    /** Whether values of a point can be made into registers at all: not text, times, and what others scale. */
    public static boolean isPossible(PointDefinition point) {
        PointFormat format = point.format();
        boolean number = format.isWhole() && !point.isDerived();
        return (number || format.isBit() || format instanceof PointFormat.Floating)
                && point.consistency().scaleBy().isEmpty()
                && point.consistency().lowerWord().isEmpty();
    }

    private Optional<Encoded> encode(BigDecimal value) {
        PointFormat format = point.format();
        if (format.isBit()) {
            return bit(value);
        }
        BigDecimal raw = point.states().isEmpty() ? unscaled(value) : value;
        return format instanceof PointFormat.Floating floating ? floating(floating, raw) : whole(format, raw);
    }

    private Optional<Encoded> bit(BigDecimal value) {
        boolean on = value.compareTo(BigDecimal.ONE) == 0;
        if (!on && value.signum() != 0) {
            return Optional.empty();
        }
        int bits = point.format() instanceof PointFormat.RegisterBit bit ? 1 << bit.index() : 1;
        return Optional.of(new Encoded(Registers.of(on ? bits : 0), on ? BigDecimal.ONE : BigDecimal.ZERO));
    }

    private BigDecimal unscaled(BigDecimal value) {
        Linear line = point.scaling().line();
        BigDecimal product = value.multiply(line.denominator()).subtract(line.addend());
        return product.divide(line.numerator(), DIGITS);
    }

    private BigDecimal scaled(BigDecimal raw) {
        return point.states().isEmpty() ? point.scaling().apply(raw) : raw;
    }

    private Optional<Encoded> whole(PointFormat format, BigDecimal raw) {
        BigDecimal nearest = raw.setScale(0, RoundingMode.HALF_EVEN);
        // A state is a number of its list; between two of them there is nothing.
        if (!point.states().isEmpty() && nearest.compareTo(raw) != 0) {
            return Optional.empty();
        }
        return registers(format, nearest.toBigIntegerExact()).map(registers -> new Encoded(registers, scaled(nearest)));
    }

    private static Optional<Registers> registers(PointFormat format, BigInteger number) {
        if (format instanceof PointFormat.Whole whole) {
            return twosComplement(number, whole.bits(), whole.signed())
                    .map(bits -> split(bits, whole.width(), whole.order()));
        }
        if (format instanceof PointFormat.HalfRegister half) {
            return twosComplement(number, 8, half.signed())
                    .map(bits -> Registers.of((int) (bits << (half.high() ? 8 : 0))));
        }
        if (format instanceof PointFormat.BitField field) {
            return twosComplement(number, field.count(), false).map(bits -> Registers.of((int) (bits << field.low())));
        }
        if (format instanceof PointFormat.SignMagnitude16) {
            return number.abs().bitLength() > 15
                    ? Optional.empty()
                    : Optional.of(Registers.of(number.abs().intValueExact() | (number.signum() < 0 ? 0x8000 : 0)));
        }
        if (format instanceof PointFormat.Bcd bcd) {
            return bcd(number, bcd);
        }
        if (format instanceof PointFormat.DecimalWords words) {
            return decimalWords(number, words);
        }
        throw new IllegalArgumentException(format.word() + " is no whole number");
    }

    /** The bits of a number, the sign included; empty where it needs more of them. */
    private static Optional<Long> twosComplement(BigInteger number, int bits, boolean signed) {
        boolean fits = signed ? number.bitLength() < bits : number.signum() >= 0 && number.bitLength() <= bits;
        long mask = bits == Long.SIZE ? -1L : (1L << bits) - 1;
        return fits ? Optional.of(number.longValue() & mask) : Optional.empty();
    }

    private static Optional<Registers> bcd(BigInteger number, PointFormat.Bcd format) {
        int digits = 4 * format.registers();
        if (number.signum() < 0 || number.compareTo(BigInteger.TEN.pow(digits)) >= 0) {
            return Optional.empty();
        }
        long bits = 0;
        long left = number.longValueExact();
        for (int digit = 0; digit < digits; digit++) {
            bits |= left % 10 << 4 * digit;
            left /= 10;
        }
        return Optional.of(split(bits, format.width(), format.order()));
    }

    private static Optional<Registers> decimalWords(BigInteger number, PointFormat.DecimalWords format) {
        if (number.signum() < 0 || number.compareTo(DECIMAL_WORD.pow(format.registers())) >= 0) {
            return Optional.empty();
        }
        long bits = 0;
        BigInteger left = number;
        for (int word = 0; word < format.registers(); word++) {
            BigInteger[] parts = left.divideAndRemainder(DECIMAL_WORD);
            bits |= parts[1].longValueExact() << 16 * word;
            left = parts[0];
        }
        return Optional.of(split(bits, format.width(), format.order()));
    }

    private Optional<Encoded> floating(PointFormat.Floating format, BigDecimal raw) {
        double number = format.bits() == 32 ? raw.floatValue() : raw.doubleValue();
        if (!Double.isFinite(number)) {
            return Optional.empty();
        }
        long bits = format.bits() == 32
                ? Integer.toUnsignedLong(Float.floatToIntBits((float) number))
                : Double.doubleToLongBits(number);
        String shortest = format.bits() == 32 ? Float.toString((float) number) : Double.toString(number);
        return Optional.of(new Encoded(split(bits, format.width(), format.order()), scaled(new BigDecimal(shortest))));
    }

    /** The words of a number of up to 64 bits in the order of their addresses. */
    private static Registers split(long bits, int count, WordOrder order) {
        int[] words = new int[count];
        for (int place = 0; place < count; place++) {
            int word = (int) (bits >>> 16 * (count - 1 - place)) & 0xFFFF;
            int address = order.lowWordFirst() ? count - 1 - place : place;
            words[address] = order.swapBytes() ? (word & 0xFF) << 8 | word >> 8 : word;
        }
        return Registers.of(words);
    }
}
