package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.mqtt.payload.Telling;
import java.util.Optional;

/**
 * Says what is true on one topic, always from the newest state of the value table, and remembers what it
 * said last. One thread uses it.
 */
public interface Teller {

    /** The topic, the root included. */
    String topic();

    /**
     * What is to be said at a moment; empty where nothing is, or the newest reading has just grown too
     * old, and the table is about to say so.
     *
     * @param sequence the message's number on its topic, from 1
     */
    Optional<Telling> tell(Stamp now, long sequence);

    /** Whether what is true now differs from what was said last by enough to be said at once. */
    boolean hasNews();

    /** Whether saying it again would let it hold for longer. */
    boolean canBeProlonged();

    /** Of the message that it answers; empty where it answers none. */
    default Octets correlation() {
        return Octets.NONE;
    }

    /** The broker has what was said last. */
    default void told() {}

    /** Whether the broker keeps it for those who come later; else it is said once, to those who listen now. */
    default boolean isRetained() {
        return true;
    }
}
