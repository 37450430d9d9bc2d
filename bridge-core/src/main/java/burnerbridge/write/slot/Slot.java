package burnerbridge.write.slot;

import burnerbridge.write.ask.Source;
import burnerbridge.write.encode.Encoded;
import java.util.OptionalLong;

/**
 * What holds a slot.
 *
 * @param until the tick at which its lease ends; empty: it holds until it is given up
 * @param notAfter the tick after which it must not be written for the first time any more
 */
public record Slot(int number, Encoded value, Source source, OptionalLong until, OptionalLong notAfter) {

    /** The same once it was written: that its ask was late no longer counts, its lease alone does. */
    public Slot settled() {
        return new Slot(number, value, source, until, OptionalLong.empty());
    }

    /** Whether its lease is over. */
    boolean hasEnded(long now) {
        return until.isPresent() && now - until.getAsLong() >= 0;
    }
}
