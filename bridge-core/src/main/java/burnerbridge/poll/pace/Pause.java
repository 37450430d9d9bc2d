package burnerbridge.poll.pace;

import java.time.Duration;
import java.util.function.LongSupplier;

/** Pauses that grow: each twice as long as the one before, up to a longest. */
public final class Pause {
    /** A busy controller or read is left alone for 1, 2, 4, 8, then 10 s. */
    static final Duration LONGEST_BUSY = Duration.ofSeconds(10);

    private static final long FIRST = 1_000_000_000L;

    private final LongSupplier longest;
    private long length;
    private long until;

    /** @param longest nanoseconds, asked anew for each pause; the first is 1 s whatever it is */
    public Pause(LongSupplier longest) {
        this.longest = longest;
    }

    public Pause(Duration longest) {
        this(longest::toNanos);
    }

    static Pause ofBusy() {
        return new Pause(LONGEST_BUSY);
    }

    /** The next pause begins; how long it is. */
    public Duration grow(long now) {
        length = length == 0 ? FIRST : Math.min(2 * length, longest.getAsLong());
        until = now + length;
        return Duration.ofNanos(length);
    }

    /** Whether there was a pause that was not ended, be it over or not. */
    public boolean isUnderWay() {
        return length > 0;
    }

    /** The first moment at or after a tick that lies in no pause. */
    public long notBefore(long tick) {
        return isUnderWay() && until - tick > 0 ? until : tick;
    }

    /** The next pause is a first one again. */
    public void end() {
        length = 0;
    }
}
