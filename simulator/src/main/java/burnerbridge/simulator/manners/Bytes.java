package burnerbridge.simulator.manners;

import java.io.ByteArrayOutputStream;
import java.util.Random;

/** Changes to bytes; none changes its argument. */
final class Bytes {
    private Bytes() {}

    static byte[] joined(byte[]... parts) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            all.writeBytes(part);
        }
        return all.toByteArray();
    }

    static byte[] part(byte[] bytes, int from, int to) {
        return java.util.Arrays.copyOfRange(bytes, from, to);
    }

    static byte[] random(Random dice, int least, int most) {
        byte[] bytes = new byte[least + dice.nextInt(most - least + 1)];
        dice.nextBytes(bytes);
        return bytes;
    }

    /** One byte becomes another one, by any but 0. */
    static byte[] changed(byte[] bytes, int at, int by) {
        byte[] changed = bytes.clone();
        changed[at] ^= (byte) by;
        return changed;
    }

    /** Somewhere inside: neither the first nor behind the last; 1 where there is but one. */
    static int inside(byte[] bytes, Random dice) {
        return 1 + dice.nextInt(Math.max(1, bytes.length - 1));
    }

    /** Two senders at once, as a line that is high where either is: the longer one's rest stands alone. */
    static byte[] overlaid(byte[] one, byte[] other) {
        byte[] longer = one.length >= other.length ? one.clone() : other.clone();
        byte[] shorter = one.length >= other.length ? other : one;
        for (int i = 0; i < shorter.length; i++) {
            longer[i] &= shorter[i];
        }
        return longer;
    }

    /** The bytes of two in turn. */
    static byte[] interleaved(byte[] one, byte[] other) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (int i = 0; i < Math.max(one.length, other.length); i++) {
            all.write(one, Math.min(i, one.length), i < one.length ? 1 : 0);
            all.write(other, Math.min(i, other.length), i < other.length ? 1 : 0);
        }
        return all.toByteArray();
    }
}
