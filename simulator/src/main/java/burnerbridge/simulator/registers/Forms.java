package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Finds the form of a word like {@code u32/low-first}. */
final class Forms {
    private static final Pattern TEXT = Pattern.compile("text(\\d+)");
    private static final Pattern BIT = Pattern.compile("bit(\\d+)");
    private static final Pattern BITS = Pattern.compile("bits(\\d+)-(\\d+)");
    private static final long U32 = 0xFFFF_FFFFL;

    private static final Map<String, Function<Shown, int[]>> WORDS = Map.ofEntries(
            Map.entry("u16", v -> words(v.asSteps().whole(0, 0xFFFF), 1)),
            Map.entry("s16", v -> words(v.asSteps().whole(Short.MIN_VALUE, Short.MAX_VALUE), 1)),
            Map.entry("sm16", v -> words(signAndMagnitude(v.asSteps().whole(-0x7FFF, 0x7FFF)), 1)),
            Map.entry("u32", v -> words(v.asSteps().whole(0, U32), 2)),
            Map.entry("s32", v -> words(v.asSteps().whole(Integer.MIN_VALUE, Integer.MAX_VALUE), 2)),
            Map.entry("u64", v -> words(v.asSteps().whole(0, Long.MAX_VALUE), 4)),
            Map.entry("u32.high", v -> words(v.asSteps().whole(0, U32) >>> 16, 1)),
            Map.entry("u32.low", v -> words(v.asSteps().whole(0, U32) & 0xFFFF, 1)),
            Map.entry("bcd16", v -> words(digits(v.asSteps().whole(0, 9999)), 1)),
            Map.entry("bcd32", v -> words(digits(v.asSteps().whole(0, 99_999_999)), 2)),
            Map.entry("dec2", v -> decimalWords(v.asSteps().whole(0, 99_999_999), 2)),
            Map.entry("dec3", v -> decimalWords(v.asSteps().whole(0, 999_999_999_999L), 3)),
            Map.entry("f32", v -> words(Float.floatToIntBits((float) v.asSteps().steps()), 2)),
            Map.entry("f64", v -> words(Double.doubleToLongBits(v.asSteps().steps()), 4)),
            Map.entry("epoch", v -> words(v.asMoment().epochSecond(), 2)));

    private static final Map<String, ToIntFunction<LocalDateTime>> PARTS = Map.of(
            "year", LocalDateTime::getYear,
            "month-day", t -> 100 * t.getMonthValue() + t.getDayOfMonth(),
            "hour-minute", t -> 100 * t.getHour() + t.getMinute(),
            "second", t -> 100 * t.getSecond());

    private Forms() {}

    /**
     * @param firstBit the number of a register's least significant bit
     * @throws IllegalArgumentException where there is no such form
     */
    static Form of(String word, int firstBit) {
        String[] parts = word.split("/", -1);
        boolean lowFirst = false;
        boolean swapped = false;
        for (int i = 1; i < parts.length; i++) {
            lowFirst |= parts[i].equals("low-first");
            swapped |= parts[i].equals("swapped");
            if (!parts[i].equals("low-first") && !parts[i].equals("swapped")) {
                throw new IllegalArgumentException("'" + parts[i] + "' is neither low-first nor swapped");
            }
        }
        Form bits = bits(parts[0], firstBit);
        return bits != null ? bits : new WholeWords(count(parts[0]), encoder(parts[0]), lowFirst, swapped);
    }

    /** A form that shares its register with others; null for any other. */
    private static @org.jspecify.annotations.Nullable Form bits(String word, int firstBit) {
        Matcher one = BIT.matcher(word);
        Matcher some = BITS.matcher(word);
        if (one.matches()) {
            return SomeBits.between(number(one, 1) - firstBit, number(one, 1) - firstBit);
        }
        if (some.matches()) {
            return SomeBits.between(number(some, 1) - firstBit, number(some, 2) - firstBit);
        }
        return switch (word) {
            case "bit" -> new WholeWords(1, v -> words(v.asSteps().whole(0, 1), 1), false, false);
            case "high8" -> SomeBits.between(8, 15);
            case "low8" -> SomeBits.between(0, 7);
            default -> null;
        };
    }

    private static int count(String word) {
        Matcher text = TEXT.matcher(word);
        if (text.matches()) {
            return number(text, 1);
        }
        return switch (word) {
            case "u32", "s32", "bcd32", "dec2", "f32", "epoch" -> 2;
            case "dec3" -> 3;
            case "u64", "f64" -> 4;
            default -> 1;
        };
    }

    private static Function<Shown, int[]> encoder(String word) {
        Matcher text = TEXT.matcher(word);
        if (text.matches()) {
            int registers = number(text, 1);
            return v -> characters(v.asText().text(), registers);
        }
        boolean bcd = word.endsWith(".bcd");
        ToIntFunction<LocalDateTime> part = PARTS.get(bcd ? word.substring(0, word.length() - 4) : word);
        if (part != null) {
            return v -> words(clock(part.applyAsInt(v.asMoment().local()), word.startsWith("year"), bcd), 1);
        }
        Function<Shown, int[]> known = WORDS.get(word);
        if (known == null) {
            throw new IllegalArgumentException("there is no form '" + word + "'");
        }
        return known;
    }

    /** A year as it is; two fields, given as hundreds and ones, as two bytes. */
    private static long clock(int number, boolean year, boolean bcd) {
        if (bcd) {
            return digits(number);
        }
        return year ? number : number / 100 << 8 | number % 100;
    }

    /** The lowest bits of a number, the most significant word first. */
    private static int[] words(long bits, int count) {
        int[] words = new int[count];
        for (int i = 0; i < count; i++) {
            words[i] = (int) (bits >>> 16 * (count - 1 - i)) & 0xFFFF;
        }
        return words;
    }

    private static long signAndMagnitude(long number) {
        return number < 0 ? 0x8000 | -number : number;
    }

    private static long digits(long number) {
        long digits = 0;
        int shift = 0;
        for (long rest = number; rest > 0; rest /= 10) {
            digits |= rest % 10 << shift;
            shift += 4;
        }
        return digits;
    }

    private static int[] decimalWords(long number, int count) {
        int[] words = new int[count];
        long rest = number;
        for (int i = count - 1; i >= 0; i--) {
            words[i] = (int) (rest % 10_000);
            rest /= 10_000;
        }
        return words;
    }

    /** Filled up with NUL. */
    private static int[] characters(String text, int registers) {
        if (text.length() > 2 * registers) {
            throw new IllegalArgumentException("'" + text + "' is longer than " + registers + " registers");
        }
        int[] words = new int[registers];
        for (int i = 0; i < text.length(); i++) {
            words[i / 2] |= (text.charAt(i) & 0xFF) << (i % 2 == 0 ? 8 : 0);
        }
        return words;
    }

    private static int number(Matcher matcher, int group) {
        return Integer.parseInt(matcher.group(group));
    }

    private record SomeBits(int mask, int lowest) implements Form {

        static SomeBits between(int low, int high) {
            if (low < 0 || high > 15 || low > high) {
                throw new IllegalArgumentException("a register has no bits " + low + " to " + high);
            }
            return new SomeBits((1 << high + 1) - (1 << low), low);
        }

        @Override
        public int words() {
            return 1;
        }

        @Override
        public void write(Cells cells, ModbusTable table, int address, Shown value) {
            cells.part(table, address, mask, (int) value.asSteps().whole(0, mask >>> lowest) << lowest);
        }
    }

    private record WholeWords(int words, Function<Shown, int[]> encoder, boolean lowFirst, boolean swapped)
            implements Form {

        @Override
        public void write(Cells cells, ModbusTable table, int address, Shown value) {
            int[] encoded = encoder.apply(value);
            for (int i = 0; i < words; i++) {
                int word = encoded[lowFirst ? words - 1 - i : i];
                cells.word(table, address + i, swapped ? (word & 0xFF) << 8 | word >>> 8 : word);
            }
        }
    }
}
