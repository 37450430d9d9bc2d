package burnerbridge.plan;

import java.time.Duration;

/**
 * A read that will not be made as often as its points want.
 *
 * @param every how often it will be made, about
 */
public record Late(ReadBlock block, Why why, Duration every) {

    /** What keeps it. */
    public enum Why {
        /** It takes longer than its interval by itself. */
        TOO_LONG,
        /** Its controller is wanted for more than all of the time, pauses included. */
        CONTROLLER_OVERLOADED,
        /** The line is wanted for more than all of the time. */
        LINE_OVERLOADED,
        /** At times: it may have to wait for a longer read, which cannot be broken off. */
        HELD_UP
    }
}
