package burnerbridge.poll.pace;

import java.time.Duration;

/**
 * When something is due that is wanted once an interval: at once at the start, and then at its phase of every
 * interval, so that what begins together does not go on together.
 */
public final class Rhythm {
    /** However long its interval, nothing waits for longer than this before it counts as late. */
    static final Duration LONGEST_WAIT = Duration.ofSeconds(10);

    private final long every;
    private final long origin;
    private final boolean fromEachTry;
    private long phase;
    private long due;

    /**
     * @param phase less than the interval
     * @param fromEachTry whether a whole interval follows each try, however late that was
     */
    public Rhythm(Duration every, Duration phase, boolean fromEachTry, long now) {
        this.every = every.toNanos();
        this.phase = phase.toNanos();
        this.origin = now + phase.toNanos();
        this.fromEachTry = fromEachTry;
        this.due = now;
    }

    private Rhythm(Rhythm like, long every, long origin, long due) {
        this.every = every;
        this.origin = origin;
        this.fromEachTry = like.fromEachTry;
        this.phase = like.phase;
        this.due = due;
    }

    /** One with the same phase, due at a tick. */
    public Rhythm fork(Duration interval, long tick) {
        return new Rhythm(this, interval.toNanos(), origin, tick);
    }

    /**
     * One of another phase.
     *
     * @param turn the tick of one of its turns
     * @param tick when it is due before it has turns
     */
    public Rhythm fork(Duration interval, long turn, long tick) {
        return new Rhythm(this, interval.toNanos(), turn, tick);
    }

    /** The tick of one of its turns. */
    public long turn() {
        return origin;
    }

    public long due() {
        return due;
    }

    /**
     * When it counts as late: after half its interval, so that where too much is wanted there is time to make it
     * within the whole one; or after {@link #LONGEST_WAIT} where that is shorter.
     */
    public long deadline() {
        return due + Math.min(every / 2, LONGEST_WAIT.toNanos());
    }

    /** How long ago a whole interval had passed since it was due; negative where that is still to come. */
    public long overdue(long now) {
        return now - due - every;
    }

    /** Its turn is taken; how many turns before were left out. */
    public long taken(long now) {
        long leftOut = Math.max(0, (now - due) / every);
        nextTurn(now);
        return leftOut;
    }

    /** It is due at its next turn. */
    public void nextTurn(long now) {
        if (fromEachTry) {
            due = now + every + phase;
            phase = 0;
        } else {
            due = origin + (Math.floorDiv(now - origin, every) + 1) * every;
        }
    }

    /** Due at a tick in place of its next turn; turns before it do not count as left out. */
    public void dueAt(long tick) {
        due = tick;
    }
}
