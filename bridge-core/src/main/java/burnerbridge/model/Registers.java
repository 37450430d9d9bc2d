package burnerbridge.model;

import java.util.Arrays;
import java.util.HexFormat;

/**
 * What a controller sent for a point: 16-bit words as they were on the wire, or one word of 0 or 1 for
 * a coil or discrete input. Immutable.
 */
public final class Registers {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    private final short[] words;

    private Registers(short[] words) {
        this.words = words;
    }

    /** Copies the words; each must be 0 to 65535. */
    public static Registers of(int... words) {
        short[] copy = new short[words.length];
        for (int i = 0; i < words.length; i++) {
            if (words[i] < 0 || words[i] > 0xFFFF) {
                throw new IllegalArgumentException("a register holds 0 to 65535 (was " + words[i] + ")");
            }
            copy[i] = (short) words[i];
        }
        return new Registers(copy);
    }

    public int count() {
        return words.length;
    }

    /** The word at an index, as 0 to 65535. */
    public int word(int index) {
        return words[index] & 0xFFFF;
    }

    /** Part of the words, from {@code first} for {@code count}. */
    public Registers slice(int first, int count) {
        return new Registers(Arrays.copyOfRange(words, first, first + count));
    }

    /** The words in hexadecimal, four digits each: {@code 42F6 E979}. */
    public String hex() {
        StringBuilder hex = new StringBuilder(words.length * 5);
        for (int i = 0; i < words.length; i++) {
            hex.append(i == 0 ? "" : " ").append(HEX.toHexDigits(words[i]));
        }
        return hex.toString();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Registers registers && Arrays.equals(words, registers.words);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(words);
    }

    @Override
    public String toString() {
        return hex();
    }
}
