package burnerbridge.table;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicIntegerArray;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;

/**
 * The changes that one reader has not seen yet. It holds at most one entry for each thing that can
 * change, and that is the newest: a slow reader loses what came between, never what is true now, and
 * delays nobody. One thread reads a feed.
 */
public final class ChangeFeed {
    private static final int SEEN = 0;
    private static final int WAITING = 1;

    private final AtomicIntegerArray marks;
    private final LinkedBlockingQueue<Integer> waiting = new LinkedBlockingQueue<>();
    private final IntFunction<Change> newest;

    ChangeFeed(int size, IntFunction<Change> newest) {
        this.marks = new AtomicIntegerArray(size);
        this.newest = newest;
    }

    /** Called by any writer; never blocks. */
    void mark(int index) {
        if (marks.compareAndSet(index, SEEN, WAITING)) {
            waiting.add(index);
        }
    }

    /** Takes everything that changed since the last call, oldest change first; empty where nothing did. */
    public List<Change> drain() {
        List<Change> changes = new ArrayList<>();
        for (Integer index = waiting.poll(); index != null; index = waiting.poll()) {
            changes.add(take(index));
        }
        return changes;
    }

    /** As {@link #drain}, but waits up to {@code nanos} for the first change. */
    public List<Change> await(long nanos) throws InterruptedException {
        @Nullable Integer first = waiting.poll(nanos, TimeUnit.NANOSECONDS);
        if (first == null) {
            return List.of();
        }
        List<Change> changes = new ArrayList<>();
        changes.add(take(first));
        changes.addAll(drain());
        return changes;
    }

    private Change take(int index) {
        // Cleared before the state is read: a change in between is told again, never lost.
        marks.set(index, SEEN);
        return newest.apply(index);
    }
}
