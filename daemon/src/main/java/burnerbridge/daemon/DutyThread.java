package burnerbridge.daemon;

import burnerbridge.model.BridgeClock;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.locks.LockSupport;
import java.util.function.LongUnaryOperator;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Runs a stepped duty on a thread of its own: each step is given the tick and says at which tick the
 * next is due.
 */
final class DutyThread implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(DutyThread.class);
    private static final long PAUSE_AFTER_FAILURE = 1_000_000_000L;
    private static final long LONGEST_PARK = 60_000_000_000L;
    private static final long LONGEST_JOIN_MILLIS = 2_000;
    /** Longer than any step may take, a line's with all of its time-outs included. */
    static final Duration LONGEST_STEP = Duration.ofMinutes(2);

    private final LongUnaryOperator duty;
    private final BridgeClock clock;
    private final Thread thread;
    private volatile boolean closed;
    /** When the step under way was begun, or the next is due: whichever is to come. */
    private volatile long movesBy;

    DutyThread(String name, LongUnaryOperator duty, BridgeClock clock) {
        this(work -> LineThreads.platform(name, work), duty, clock);
    }

    /** @param threads makes the one thread, not started */
    DutyThread(ThreadFactory threads, LongUnaryOperator duty, BridgeClock clock) {
        this.duty = duty;
        this.clock = clock;
        this.thread = threads.newThread(this::run);
    }

    void start() {
        movesBy = clock.ticks();
        thread.start();
    }

    private void run() {
        while (!closed) {
            movesBy = clock.ticks();
            long due = step();
            movesBy = due;
            long wait = due - clock.ticks();
            if (wait > 0 && !closed) {
                LockSupport.parkNanos(this, Math.min(wait, LONGEST_PARK));
            }
        }
    }

    /** A duty that fails is a defect of ours; it is told, and the next step goes on after a pause. */
    private long step() {
        try {
            return duty.applyAsLong(clock.ticks());
        } catch (RuntimeException e) {
            LOG.error("{}: a step failed and will be tried again", thread.getName(), e);
            return clock.ticks() + PAUSE_AFTER_FAILURE;
        }
    }

    /** Since when it has not moved though it should have; empty while it does. For any thread. */
    Optional<Duration> stalled(long now) {
        long late = now - movesBy;
        return !closed && late > LONGEST_STEP.toNanos() ? Optional.of(Duration.ofNanos(late)) : Optional.empty();
    }

    /** As the log names it. */
    String name() {
        return thread.getName();
    }

    /** Lets the next step be made now, where it is not under way. For any thread. */
    void wake() {
        LockSupport.unpark(thread);
    }

    /** Ends after the step under way. Idempotent; returns within 2 s. */
    @Override
    public void close() {
        closed = true;
        LockSupport.unpark(thread);
        try {
            thread.join(LONGEST_JOIN_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
