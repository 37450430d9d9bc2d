package burnerbridge.write;

import burnerbridge.write.ask.Source;
import burnerbridge.write.encode.Encoded;
import java.util.OptionalLong;

/**
 * Leave to write one value once, good until it is asked for again at the line.
 *
 * @param hash of the approval under which it was given
 * @param notAfter the tick after which it must not leave any more
 * @param number in the order in which tickets were given, from 1
 */
record Ticket(
        Permitted permitted,
        Encoded value,
        Cause cause,
        Source source,
        int slot,
        String hash,
        OptionalLong notAfter,
        long number) {
    static final int NO_SLOT = 0;

    /** Whether what it writes must be taken back when nobody asks any more. */
    boolean isDemand() {
        return cause != Cause.SILENCE && permitted.permit().silence().isPresent();
    }
}
