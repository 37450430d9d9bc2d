package burnerbridge.bacnet.device;

import burnerbridge.bacnet.served.ServedObjects;
import burnerbridge.table.Change;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.concurrent.locks.Lock;

/**
 * Carries what changes in the value table over to the objects. Stepped: {@link #step} waits for changes and
 * applies them; one thread calls it.
 */
public final class ChangeApplier {
    private final ValueTable table;
    private final ChangeFeed feed;
    private final ServedObjects objects;
    private final Lock whole;

    /** @param whole held while an object changes, so that who holds it reads no half of a change */
    ChangeApplier(ValueTable table, ServedObjects objects, Lock whole) {
        this.table = table;
        this.feed = table.subscribe();
        this.objects = objects;
        this.whole = whole;
    }

    /** Shows what the table holds now. */
    void catchUp() {
        objects.catchUp(table);
    }

    /** Waits up to so many nanoseconds for the first change and applies all there are; says how many. */
    public int step(long nanos) throws InterruptedException {
        List<Change> changes = feed.await(nanos);
        for (Change change : changes) {
            show(change);
        }
        return changes.size();
    }

    private void show(Change change) {
        whole.lock();
        try {
            objects.show(change);
        } finally {
            whole.unlock();
        }
    }

    void close() {
        table.unsubscribe(feed);
    }
}
