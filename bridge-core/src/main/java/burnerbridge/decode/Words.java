package burnerbridge.decode;

import burnerbridge.model.Registers;
import burnerbridge.site.WordOrder;

/** Puts the words of a value together in the order that the point list states. */
final class Words {
    private Words() {}

    /** Up to four words as one number of 64 bits, most significant word first. */
    static long join(Registers raw, WordOrder order) {
        long joined = 0;
        for (int i = 0; i < raw.count(); i++) {
            joined = joined << 16 | word(raw, i, order);
        }
        return joined;
    }

    /** The word at a place, counted from the most significant one. */
    static int word(Registers raw, int place, WordOrder order) {
        int word = raw.word(order.lowWordFirst() ? raw.count() - 1 - place : place);
        return order.swapBytes() ? (word & 0xFF) << 8 | word >> 8 : word;
    }
}
