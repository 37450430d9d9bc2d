package burnerbridge.bacnet.edge.coding;

/**
 * Reads octets in order. Reading past the end gives zeros and is remembered, so that a reader asks once,
 * at the end, whether all that it read was there.
 */
public final class Cursor {
    private final Octets octets;
    private int at;
    private boolean ranOut;

    public Cursor(Octets octets) {
        this.octets = octets;
    }

    public int remaining() {
        return octets.length() - at;
    }

    public boolean more() {
        return remaining() > 0;
    }

    public boolean ranOut() {
        return ranOut;
    }

    public int u8() {
        if (!more()) {
            ranOut = true;
            return 0;
        }
        return octets.at(at++);
    }

    public int u16() {
        int high = u8();
        return high << 8 | u8();
    }

    public long u32() {
        long high = u16();
        return high << 16 | u16();
    }

    /** The next octets; none where fewer are left. */
    public Octets take(int length) {
        if (length > remaining()) {
            ranOut = true;
            at = octets.length();
            return Octets.of();
        }
        at += length;
        return octets.slice(at - length, length);
    }

    public Octets rest() {
        return take(remaining());
    }

    /** A second cursor at the same place. */
    public Cursor ahead() {
        Cursor copy = new Cursor(octets);
        copy.at = at;
        return copy;
    }
}
