package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import java.time.Duration;

/** An absolute moment by which a transaction must have ended, however its bytes dribble in. */
public record Deadline(long ticks) {
    /** No wait on a port is longer than this, so that closing it is prompt. */
    private static final long LONGEST_SLICE_MILLIS = 100;

    public static Deadline after(Duration allowance, BridgeClock clock) {
        return new Deadline(clock.ticks() + allowance.toNanos());
    }

    public boolean isOver(BridgeClock clock) {
        return clock.ticks() - ticks >= 0;
    }

    /** How long the next wait may be: 1 to 100 ms. */
    public int sliceMillis(BridgeClock clock) {
        return (int) Math.min(LONGEST_SLICE_MILLIS, leftMillis(clock));
    }

    /** How long is left, in whole milliseconds: 1 at least. */
    int leftMillis(BridgeClock clock) {
        long left = (ticks - clock.ticks() + 999_999) / 1_000_000;
        return (int) Math.max(1, Math.min(Integer.MAX_VALUE, left));
    }
}
