package burnerbridge.poll;

import burnerbridge.line.LineTransport;
import burnerbridge.line.ReadRequest;
import burnerbridge.plan.ReadBlock;

/** When a block is due next. */
final class Schedule {
    /** Later than any probe. */
    private static final long NO_PROBE = 3_600_000_000_000L;

    final ReadBlock block;
    final ControllerHealth health;
    final Gathering gathering;
    private final LineTransport transport;
    private final boolean mayProbe;
    private long due;
    private long dueAfter;
    private int unanswered;

    /** @param mayProbe whether a lost controller may be asked for this block to see whether it is back */
    Schedule(ReadBlock block, ControllerHealth health, LineTransport transport, boolean mayProbe, long due) {
        this.block = block;
        this.health = health;
        this.gathering = new Gathering(block);
        this.transport = transport;
        this.mayProbe = mayProbe;
        this.due = due;
    }

    /** What to ask now; with the first request of a turn the next turn is set. */
    ReadRequest next(long now) {
        if (gathering.isFresh()) {
            long every = block.every().toNanos();
            // What a read clears has a whole interval after each try, however late that was.
            dueAfter = block.isOnce() ? now + every : later(due + every, now);
        }
        due = dueAfter;
        return gathering.next();
    }

    /** The tick at which it is wanted. */
    long due() {
        return due;
    }

    /** The tick from which it is wanted and may be asked, going by what is known at a tick. */
    long from(long now) {
        long from = later(health.notBefore(due), transport.readyAt(gathering.next(), now));
        return health.isLost() && !mayProbe ? from + NO_PROBE : from;
    }

    /** Wanted at once: the rest of a value, or what could not be asked. */
    void dueAt(long tick) {
        due = tick;
    }

    /** Wanted again at a tick, if not sooner; but what a read clears waits for its next turn. */
    void retryAt(long tick) {
        if (!block.isOnce() && due - tick > 0) {
            due = tick;
        }
    }

    /** Not wanted before a tick. */
    void postponeTo(long tick) {
        due = later(due, tick);
    }

    /** The block was answered; how often in a row it was not. */
    int answered() {
        int before = unanswered;
        unanswered = 0;
        return before;
    }

    /** The block was not answered; how often in a row so far. */
    int unanswered() {
        return ++unanswered;
    }

    boolean isReadLike(Schedule other) {
        return block.controller().ordinal() == other.block.controller().ordinal()
                && block.function() == other.block.function();
    }

    /** Ticks may overflow, so they are compared by their difference. */
    static long later(long one, long other) {
        return one - other >= 0 ? one : other;
    }
}
