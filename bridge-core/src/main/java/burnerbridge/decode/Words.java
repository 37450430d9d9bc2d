package burnerbridge.decode;

import burnerbridge.model.Registers;
import burnerbridge.site.WordOrder;

/** Puts the words of a value together in the order that the point list states. */
final class Words {
    private Words() {}

    static float float32(Registers raw, WordOrder order) {
        return Float.intBitsToFloat((int) join(raw, order));
    }

    /** Up to four words as one number, most significant word first. */
    static long join(Registers raw, WordOrder order) {
        long joined = 0;
        for (int i = 0; i < raw.count(); i++) {
            int word = raw.word(order.lowWordFirst() ? raw.count() - 1 - i : i);
            joined = joined << 16 | (order.swapBytes() ? swapped(word) : word);
        }
        return joined;
    }

    private static int swapped(int word) {
        return (word & 0xFF) << 8 | word >> 8;
    }
}
