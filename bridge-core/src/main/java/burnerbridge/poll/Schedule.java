package burnerbridge.poll;

import burnerbridge.line.ReadRequest;
import burnerbridge.plan.ReadBlock;
import java.util.Comparator;

/**
 * When a block is wanted next, and what became of it so far. What orders it among others changes only while it
 * stands in no {@link Lane}.
 */
final class Schedule {
    /** Which is wanted first. Ticks may overflow, so they are compared by their difference. */
    static final Comparator<Schedule> BY_DUE = (one, other) -> {
        int byDue = Long.compare(one.due - other.due, 0);
        return byDue == 0 ? Integer.compare(one.number, other.number) : byDue;
    };

    final ReadBlock block;
    final Controller controller;
    final FunctionReads function;
    final Gathering gathering;
    final Busy busy = new Busy();
    private final int number;
    private long due;
    private long dueAfter;
    private int unanswered;
    private boolean everAnswered;
    private boolean parked;

    /** @param number where two are wanted at the same moment, the lower one comes first */
    Schedule(ReadBlock block, int number, Controller controller, long due) {
        this.block = block;
        this.number = number;
        this.controller = controller;
        this.function = controller.function(block.function());
        this.gathering = new Gathering(block);
        this.due = due;
    }

    /** What is asked next. */
    ReadRequest request() {
        return gathering.next();
    }

    /** It is asked now; with the first request of a turn the next turn is set. */
    void asked(long now) {
        if (gathering.isFresh()) {
            long every = block.every().toNanos();
            // What a read clears has a whole interval after each try, however late that was.
            dueAfter = block.isOnce() ? now + every : later(due + every, now);
        }
        due = dueAfter;
    }

    /** The tick at which it is wanted. */
    long due() {
        return due;
    }

    /** How long ago a whole interval had passed since it was due; negative where that is still to come. */
    long overdue(long now) {
        return now - due - block.every().toNanos();
    }

    /** Wanted at a tick, whatever was so before. */
    void dueAt(long tick) {
        due = tick;
    }

    /** It is busy: wanted again at a tick; but what a read clears waits for its next turn at least. */
    void retryAt(long tick) {
        due = block.isOnce() ? later(due, tick) : tick;
    }

    /** Whether it stands aside until something is known, and is not asked meanwhile. */
    boolean isParked() {
        return parked;
    }

    void park() {
        parked = true;
    }

    void unpark() {
        parked = false;
    }

    /** It was answered, be it by a refusal; how often in a row it was not. */
    int answered() {
        int before = unanswered;
        unanswered = 0;
        everAnswered = true;
        return before;
    }

    /** It was not answered; how often in a row so far. */
    int unanswered() {
        return ++unanswered;
    }

    boolean isUnanswered() {
        return unanswered > 0;
    }

    boolean wasEverAnswered() {
        return everAnswered;
    }

    /** How many addresses its next request takes. */
    int size() {
        return request().count();
    }

    /** Ticks may overflow, so they are compared by their difference. */
    static long later(long one, long other) {
        return one - other >= 0 ? one : other;
    }
}
