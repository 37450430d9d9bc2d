package burnerbridge.mqtt;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** Where other threads put what one thread takes. Posting never blocks. */
final class Inbox<T> {
    private final LinkedBlockingQueue<T> waiting = new LinkedBlockingQueue<>();

    void post(T item) {
        waiting.add(item);
    }

    /** Takes everything there is. */
    List<T> drain() {
        List<T> items = new ArrayList<>();
        waiting.drainTo(items);
        return items;
    }

    /** As {@link #drain}, but waits up to {@code nanos} for the first. */
    List<T> await(long nanos) throws InterruptedException {
        @Nullable T first = waiting.poll(nanos, TimeUnit.NANOSECONDS);
        if (first == null) {
            return List.of();
        }
        List<T> items = new ArrayList<>();
        items.add(first);
        waiting.drainTo(items);
        return items;
    }
}
