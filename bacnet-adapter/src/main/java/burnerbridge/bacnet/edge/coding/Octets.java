package burnerbridge.bacnet.edge.coding;

import java.util.Arrays;
import java.util.HexFormat;

/** A run of octets. Immutable. */
public final class Octets {
    private static final int LONGEST_EXCERPT = 48;

    private final byte[] bytes;

    private Octets(byte[] bytes) {
        this.bytes = bytes;
    }

    /** Copies the octets; each must be 0 to 255. */
    public static Octets of(int... octets) {
        byte[] bytes = new byte[octets.length];
        for (int i = 0; i < octets.length; i++) {
            if (octets[i] < 0 || octets[i] > 0xFF) {
                throw new IllegalArgumentException("an octet is 0 to 255 (was " + octets[i] + ")");
            }
            bytes[i] = (byte) octets[i];
        }
        return new Octets(bytes);
    }

    /** Copies the first {@code length} bytes. */
    public static Octets copyOf(byte[] bytes, int length) {
        return new Octets(Arrays.copyOf(bytes, length));
    }

    public int length() {
        return bytes.length;
    }

    /** The octet at an index, as 0 to 255. */
    public int at(int index) {
        return bytes[index] & 0xFF;
    }

    /** The octets from an index for a length. */
    public Octets slice(int from, int length) {
        return new Octets(Arrays.copyOfRange(bytes, from, from + length));
    }

    /** The octets from an index to the end. */
    public Octets from(int index) {
        return slice(index, bytes.length - index);
    }

    /** All octets as one unsigned number, most significant first; at most seven octets. */
    public long number() {
        if (bytes.length > 7) {
            throw new IllegalStateException("at most 7 octets make a number (were " + bytes.length + ")");
        }
        long number = 0;
        for (byte b : bytes) {
            number = number << 8 | (b & 0xFF);
        }
        return number;
    }

    /** A copy. */
    public byte[] toArray() {
        return bytes.clone();
    }

    /** In hexadecimal, two digits each: {@code 81 0A 00}. */
    public String hex() {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Octets octets && Arrays.equals(bytes, octets.bytes);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(bytes);
    }

    /** The octets for a line of the log, which a long hostile datagram must not fill. */
    public String excerpt() {
        return length() <= LONGEST_EXCERPT ? hex() : slice(0, LONGEST_EXCERPT).hex() + " … (" + length() + " octets)";
    }

    @Override
    public String toString() {
        return hex();
    }
}
