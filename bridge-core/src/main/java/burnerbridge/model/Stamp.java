package burnerbridge.model;

import java.time.Instant;

/**
 * One moment on both clocks.
 *
 * @param ticks monotonic nanoseconds, for ages and time-outs only
 * @param wall UTC, for people and payloads only
 * @param believed whether the wall clock is believed to be right
 */
public record Stamp(long ticks, Instant wall, boolean believed) {

    /** Nanoseconds from this moment to a later tick. */
    public long ageAt(long laterTicks) {
        return laterTicks - ticks;
    }
}
