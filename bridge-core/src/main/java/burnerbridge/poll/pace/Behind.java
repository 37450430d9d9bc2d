package burnerbridge.poll.pace;

import java.time.Duration;
import java.util.Optional;

/**
 * Whether a line keeps up with what is wanted of it: looked at every minute, so that what a few time-outs delay is
 * not told.
 */
public final class Behind {
    static final Duration WINDOW = Duration.ofMinutes(1);

    /** Turns left out that are worth telling, and one of how many. */
    private static final int FEWEST = 5;

    private static final int ONE_IN_WORTH_TELLING = 20;
    private static final int ONE_IN_OVER = 100;

    private volatile boolean behind;
    private long since;
    private long taken;
    private long leftOut;

    /** What changed. */
    public record Change(boolean behind, long leftOut, long wanted) {}

    public Behind(long now) {
        this.since = now;
    }

    /** As it was when it was looked at last. For any thread. */
    public boolean isBehind() {
        return behind;
    }

    /** A turn was taken and so many before it were left out; what that changes, if anything. */
    public Optional<Change> turn(long turnsLeftOut, long now) {
        Optional<Change> change = now - since >= WINDOW.toNanos() ? look(now) : Optional.empty();
        taken++;
        leftOut += turnsLeftOut;
        return change;
    }

    private Optional<Change> look(long now) {
        long wanted = taken + leftOut;
        boolean was = behind;
        long oneIn = was ? ONE_IN_OVER : ONE_IN_WORTH_TELLING;
        behind = leftOut >= (was ? 1 : FEWEST) && leftOut * oneIn >= wanted;
        Change change = new Change(behind, leftOut, wanted);
        since = now;
        taken = 0;
        leftOut = 0;
        return was == behind ? Optional.empty() : Optional.of(change);
    }
}
