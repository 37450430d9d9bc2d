package burnerbridge.poll.pace;

import java.time.Duration;

/** A share of a line's time that may be spent on something. What is not spent is saved up, but not for ever. */
public final class Share {
    private final int oneIn;
    private final long most;
    private long saved;
    private long at;

    /**
     * All is saved up at the start.
     *
     * @param oneIn one part of so many of the time
     * @param savedFor what this time brings is the most that is saved up
     */
    public Share(int oneIn, Duration savedFor, long now) {
        this.oneIn = oneIn;
        this.most = savedFor.toNanos() / oneIn;
        this.saved = most;
        this.at = now;
    }

    /** The first moment at or after now at which there is enough for something that takes a time. */
    public long enoughAt(Duration time, long now) {
        earn(now);
        long missing = Math.min(time.toNanos(), most) - saved;
        return missing <= 0 ? now : now + missing * oneIn;
    }

    /** A time was spent; it may be more than there was. */
    public void spend(long nanos, long now) {
        earn(now);
        saved -= nanos;
    }

    private void earn(long now) {
        long whole = (now - at) / oneIn;
        saved = Math.min(most, saved + whole);
        at += whole * oneIn;
    }
}
