package burnerbridge.bacnet.device;

import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.model.Reading;
import burnerbridge.site.SitePoint;
import burnerbridge.table.Change;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Map;

/**
 * Carries what changes in the value table over to the objects. Stepped: {@link #step} waits for changes and
 * applies them; one thread calls it.
 */
public final class ChangeApplier {
    private final ValueTable table;
    private final ChangeFeed feed;
    private final Map<SitePoint, PointObject> objects;
    private final LimitedLog trouble;

    ChangeApplier(ValueTable table, Map<SitePoint, PointObject> objects, LimitedLog trouble) {
        this.table = table;
        this.feed = table.subscribe();
        this.objects = Map.copyOf(objects);
        this.trouble = trouble;
    }

    /** Shows what the table holds now. */
    void catchUp() {
        objects.forEach((point, object) -> apply(object, table.reading(point)));
    }

    /** Waits up to so many nanoseconds for the first change and applies all there are; says how many. */
    public int step(long nanos) throws InterruptedException {
        List<Change> changes = feed.await(nanos);
        for (Change change : changes) {
            if (change instanceof Change.PointChanged changed) {
                show(changed);
            }
        }
        return changes.size();
    }

    private void show(Change.PointChanged changed) {
        PointObject object = objects.get(changed.point());
        if (object != null) {
            apply(object, changed.reading());
        }
    }

    private void apply(PointObject object, Reading reading) {
        try {
            object.apply(reading);
        } catch (RuntimeException e) {
            // One object that the library stumbles over must not keep the others from changing.
            trouble.tell(e.getClass(), () -> object.getObjectName() + ": cannot be changed: " + e);
        }
    }

    void close() {
        table.unsubscribe(feed);
    }
}
