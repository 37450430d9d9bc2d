package burnerbridge.decode;

import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.site.PointFormat;
import burnerbridge.site.WordOrder;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.OptionalLong;

/** Reads the formats that hold a number. */
final class RawNumbers {
    private static final BigInteger DECIMAL_WORD = BigInteger.valueOf(10_000);

    private RawNumbers() {}

    static Raw read(PointFormat format, Registers raw) {
        if (format instanceof PointFormat.Whole whole) {
            return whole(Words.join(raw, whole.order()), whole.bits(), whole.signed());
        }
        if (format instanceof PointFormat.HalfRegister half) {
            return whole(raw.word(0) >> (half.high() ? 8 : 0), 8, half.signed());
        }
        if (format instanceof PointFormat.BitField field) {
            return whole(raw.word(0) >> field.low(), field.count(), false);
        }
        if (format instanceof PointFormat.SignMagnitude16) {
            return signMagnitude(raw.word(0));
        }
        if (format instanceof PointFormat.Bcd bcd) {
            return bcd(Words.join(raw, bcd.order()), 4 * bcd.registers());
        }
        if (format instanceof PointFormat.DecimalWords words) {
            return decimalWords(raw, words.order());
        }
        if (format instanceof PointFormat.Floating floating) {
            return floating(Words.join(raw, floating.order()), floating.bits());
        }
        throw new IllegalArgumentException(format.word() + " is no number");
    }

    private static BigInteger pattern(long bits, int count) {
        if (count < Long.SIZE) {
            return BigInteger.valueOf(bits & (1L << count) - 1);
        }
        return bits >= 0 ? BigInteger.valueOf(bits) : BigInteger.valueOf(bits).add(BigInteger.ONE.shiftLeft(count));
    }

    private static Raw whole(long bits, int count, boolean signed) {
        BigInteger pattern = pattern(bits, count);
        boolean negative = signed && pattern.testBit(count - 1);
        return new Raw.Whole(negative ? pattern.subtract(BigInteger.ONE.shiftLeft(count)) : pattern, pattern);
    }

    private static Raw signMagnitude(int word) {
        int magnitude = word & 0x7FFF;
        return new Raw.Whole(
                BigInteger.valueOf((word & 0x8000) == 0 ? magnitude : -magnitude), BigInteger.valueOf(word));
    }

    private static Raw bcd(long bits, int digits) {
        BigInteger pattern = pattern(bits, 4 * digits);
        OptionalLong number = BcdDigits.read(bits, digits);
        return number.isPresent()
                ? new Raw.Whole(BigInteger.valueOf(number.getAsLong()), pattern)
                : new Raw.Wrong(Reason.UNREADABLE, pattern);
    }

    private static Raw decimalWords(Registers raw, WordOrder order) {
        BigInteger number = BigInteger.ZERO;
        boolean readable = true;
        for (int i = 0; i < raw.count(); i++) {
            int word = Words.word(raw, i, order);
            readable &= word < DECIMAL_WORD.intValue();
            number = number.multiply(DECIMAL_WORD).add(BigInteger.valueOf(word));
        }
        BigInteger pattern = pattern(Words.join(raw, order), 16 * raw.count());
        return readable ? new Raw.Whole(number, pattern) : new Raw.Wrong(Reason.UNREADABLE, pattern);
    }

    /** The shortest decimal that means the number: 123.456 rather than 123.45600128173828. */
    private static Raw floating(long bits, int count) {
        BigInteger pattern = pattern(bits, count);
        double number = count == 32 ? Float.intBitsToFloat((int) bits) : Double.longBitsToDouble(bits);
        if (!Double.isFinite(number)) {
            return new Raw.Wrong(Reason.NOT_A_NUMBER, pattern);
        }
        String shortest = count == 32 ? Float.toString(Float.intBitsToFloat((int) bits)) : Double.toString(number);
        return new Raw.Fraction(new BigDecimal(shortest).stripTrailingZeros(), pattern);
    }
}
