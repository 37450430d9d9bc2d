package burnerbridge.table;

import burnerbridge.model.Reading;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.jspecify.annotations.Nullable;

/**
 * The one place that holds the newest reading of every point. The poller, derived points and the stale
 * sweep write; everybody else reads. Safe for any number of threads; nothing here blocks.
 */
public final class ValueTable {
    private final List<SitePoint> points;
    private final List<ControllerDefinition> controllers;
    private final AtomicReferenceArray<Reading> readings;
    private final AtomicReferenceArray<ControllerLink> links;
    private final List<ChangeFeed> feeds = new CopyOnWriteArrayList<>();
    private @Nullable Conditions conditions;

    /**
     * @param points in the order of their ordinals
     * @param controllers in the order of their ordinals
     */
    public ValueTable(List<SitePoint> points, List<ControllerDefinition> controllers) {
        this.points = List.copyOf(points);
        this.controllers = List.copyOf(controllers);
        this.readings = new AtomicReferenceArray<>(points.size());
        this.links = new AtomicReferenceArray<>(controllers.size());
        for (int i = 0; i < points.size(); i++) {
            readings.set(i, Reading.notReadYet());
        }
        for (int i = 0; i < controllers.size(); i++) {
            links.set(i, ControllerLink.AT_START);
        }
    }

    public List<SitePoint> points() {
        return points;
    }

    public List<ControllerDefinition> controllers() {
        return controllers;
    }

    /** The conditions of its points; made once, since each of a thousand lines asks for them. */
    public synchronized Conditions conditions() {
        Conditions known = conditions == null ? new Conditions(this) : conditions;
        conditions = known;
        return known;
    }

    public Reading reading(SitePoint point) {
        return readings.get(point.ordinal());
    }

    public ControllerLink link(ControllerDefinition controller) {
        return links.get(controller.ordinal());
    }

    /** Starts a feed of the changes from now on. */
    public ChangeFeed subscribe() {
        ChangeFeed feed = new ChangeFeed(points.size() + controllers.size(), this::newest);
        feeds.add(feed);
        return feed;
    }

    /** Ends a feed; nothing is told to it any more. */
    public void unsubscribe(ChangeFeed feed) {
        feeds.remove(feed);
    }

    /** Sets the newest reading of a point. A feed is told only what a reader can notice. */
    public void publish(SitePoint point, Reading reading) {
        Reading before = readings.getAndSet(point.ordinal(), reading);
        tellIfChanged(point, before, reading);
    }

    /** Sets a reading unless a newer one came in the meantime; says whether it did. */
    public boolean replace(SitePoint point, Reading expected, Reading next) {
        if (!readings.compareAndSet(point.ordinal(), expected, next)) {
            return false;
        }
        tellIfChanged(point, expected, next);
        return true;
    }

    /** Sets the state of a controller's link. */
    public void publish(ControllerDefinition controller, ControllerLink link) {
        ControllerLink before = links.getAndSet(controller.ordinal(), link);
        if (!before.equals(link)) {
            tell(points.size() + controller.ordinal());
        }
    }

    private void tellIfChanged(SitePoint point, Reading before, Reading after) {
        if (before.reason() != after.reason()
                || before.exceptionCode() != after.exceptionCode()
                || !Objects.equals(before.value(), after.value())) {
            tell(point.ordinal());
        }
    }

    private void tell(int index) {
        for (ChangeFeed feed : feeds) {
            feed.mark(index);
        }
    }

    private Change newest(int index) {
        if (index < points.size()) {
            return new Change.PointChanged(points.get(index), readings.get(index));
        }
        int controller = index - points.size();
        return new Change.LinkChanged(controllers.get(controller), links.get(controller));
    }
}
