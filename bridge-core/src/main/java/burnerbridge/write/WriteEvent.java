package burnerbridge.write;

import burnerbridge.site.PointId;

/**
 * Something that became of a permitted point, for people.
 *
 * @param sentence names the point, who asked and the value
 */
public record WriteEvent(Kind kind, PointId point, String sentence) {

    public enum Kind {
        /** Asked for, and refused; of many that are alike the first, and then their number once a minute. */
        REFUSED,
        /** Written, and read back as it was asked for. */
        WRITTEN,
        /** Sent or to be sent, and not what was asked for is there. */
        FAILED,
        /** What wins cannot be written now; it is tried again. */
        HELD,
        /** A lease is over. */
        LEASE_ENDED,
        /** Nobody asks any more. */
        SILENCE,
        /** The permit sleeps until a person approves it again. */
        ASLEEP
    }

    /** Told on the thread that found out, which must not wait. */
    public interface Listener {
        void told(WriteEvent event);
    }
}
