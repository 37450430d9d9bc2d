package burnerbridge.site;

import java.time.ZoneId;
import java.util.List;

/** How the registers of a point are to be understood. */
public sealed interface PointFormat {

    PointFormat UINT16 = new Whole(16, false, WordOrder.HIGH_WORD_FIRST);
    PointFormat INT16 = new Whole(16, true, WordOrder.HIGH_WORD_FIRST);

    /** How many addresses of its table a point of this format takes. */
    int width();

    /** The word used in the point list. */
    String word();

    /** Whether it is one bit, on its own or of a register. */
    default boolean isBit() {
        return this instanceof Bit || this instanceof RegisterBit;
    }

    /** Whether the raw value is a whole number of steps, as opposed to bits, text and floating point. */
    default boolean isWhole() {
        return false;
    }

    /** How many bits a whole raw value can need, its sign left out; 0 for formats that are not whole. */
    default int magnitudeBits() {
        return 0;
    }

    /** Whether the words of the value are put together in a stated order. */
    default boolean hasOrder() {
        return width() > 1;
    }

    /** No register at all: a number that the bridge computes. */
    record Count() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "count";
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return 16;
        }
    }

    /** A coil or discrete input. */
    record Bit() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "bit";
        }
    }

    /**
     * One bit of a 16-bit register.
     *
     * @param index 0 for the least significant bit to 15, whatever number the manual gives it
     * @param written the bit's number as the point list has it, counted from the type's first bit
     */
    record RegisterBit(int index, int written) implements PointFormat {
        public RegisterBit {
            if (index < 0 || index > 15) {
                throw new IllegalArgumentException("a register has bits 0 to 15 (was " + index + ")");
            }
        }

        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "bit:" + written;
        }
    }

    /**
     * Several neighbouring bits of a register as a number.
     *
     * @param low the lowest, 0 for the least significant
     * @param count 2 to 15
     * @param written as the point list has it
     */
    record BitField(int low, int count, String written) implements PointFormat {
        public BitField {
            if (low < 0 || count < 2 || count > 15 || low + count > 16) {
                throw new IllegalArgumentException("a register has bits 0 to 15 (was " + written + ")");
            }
        }

        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return written;
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return count;
        }
    }

    /** A whole number in two's complement or without sign, of 16, 32 or 64 bits. */
    record Whole(int bits, boolean signed, WordOrder order) implements PointFormat {
        public Whole {
            if (bits != 16 && bits != 32 && bits != 64) {
                throw new IllegalArgumentException("a whole number has 16, 32 or 64 bits (was " + bits + ")");
            }
        }

        @Override
        public int width() {
            return bits / 16;
        }

        @Override
        public String word() {
            return (signed ? "int" : "uint") + bits;
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return signed ? bits - 1 : bits;
        }
    }

    /** The upper or lower byte of a register as a whole number. */
    record HalfRegister(boolean high, boolean signed) implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return (signed ? "int8-" : "uint8-") + (high ? "high" : "low");
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return signed ? 7 : 8;
        }
    }

    /** A register whose most significant bit is the sign and whose others are the magnitude. */
    record SignMagnitude16() implements PointFormat {
        @Override
        public int width() {
            return 1;
        }

        @Override
        public String word() {
            return "sign-magnitude16";
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return 15;
        }
    }

    /** Binary coded decimal: four digits a register. */
    record Bcd(int registers, WordOrder order) implements PointFormat {
        public Bcd {
            if (registers != 1 && registers != 2) {
                throw new IllegalArgumentException("BCD takes 1 or 2 registers (was " + registers + ")");
            }
        }

        @Override
        public int width() {
            return registers;
        }

        @Override
        public String word() {
            return "bcd" + 16 * registers;
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return registers == 1 ? 14 : 27;
        }
    }

    /** Registers of four decimal digits each: 0 to 9999, joined as digits. */
    record DecimalWords(int registers, WordOrder order) implements PointFormat {
        public static final int MOST = 4;

        public DecimalWords {
            if (registers < 2 || registers > MOST) {
                throw new IllegalArgumentException("decimal words are 2 to " + MOST + " (was " + registers + ")");
            }
        }

        @Override
        public int width() {
            return registers;
        }

        @Override
        public String word() {
            return "decimal-words:" + registers;
        }

        @Override
        public boolean isWhole() {
            return true;
        }

        @Override
        public int magnitudeBits() {
            return registers == 2 ? 27 : registers == 3 ? 40 : 54;
        }
    }

    /** IEEE 754 binary32 or binary64. */
    record Floating(int bits, WordOrder order) implements PointFormat {
        public Floating {
            if (bits != 32 && bits != 64) {
                throw new IllegalArgumentException("a floating-point number has 32 or 64 bits (was " + bits + ")");
            }
        }

        @Override
        public int width() {
            return bits / 16;
        }

        @Override
        public String word() {
            return "float" + bits;
        }
    }

    /** Characters of ISO 8859-1, two a register, the upper byte first unless bytes are swapped. */
    record Text(int registers, WordOrder order) implements PointFormat {
        public static final int MOST = 60;

        public Text {
            if (registers < 1 || registers > MOST) {
                throw new IllegalArgumentException("text takes 1 to " + MOST + " registers (was " + registers + ")");
            }
        }

        @Override
        public int width() {
            return registers;
        }

        @Override
        public String word() {
            return "text:" + registers;
        }

        @Override
        public boolean hasOrder() {
            return true;
        }
    }

    /** Seconds since 1970 without sign, in universal time, shown in the site's zone. */
    record Epoch32(WordOrder order, ZoneId zone) implements PointFormat {
        @Override
        public int width() {
            return 2;
        }

        @Override
        public String word() {
            return "epoch32";
        }
    }

    /**
     * A date and time in fields.
     *
     * @param registers what each register holds, in the order of the addresses
     * @param bcd whether each field is binary coded decimal
     */
    record Calendar(List<List<CalendarField>> registers, boolean bcd, String written) implements PointFormat {
        public Calendar {
            registers = registers.stream().map(List::copyOf).toList();
        }

        @Override
        public int width() {
            return registers.size();
        }

        @Override
        public String word() {
            return written;
        }

        @Override
        public boolean hasOrder() {
            return false;
        }
    }

    /** What part of a date and time a register, or one of its bytes, holds. */
    enum CalendarField {
        YEAR('y'),
        MONTH('m'),
        DAY('d'),
        HOUR('h'),
        MINUTE('n'),
        SECOND('s'),
        /** Something that is not looked at, such as the day of the week. */
        OTHER('x');

        private final char letter;

        CalendarField(char letter) {
            this.letter = letter;
        }

        /** Its letter in the point list. */
        public char letter() {
            return letter;
        }
    }
}
