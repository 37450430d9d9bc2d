package burnerbridge.values;

import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What a query finds in the value table at a moment. Points that are never read have no row. */
final class Snapshot {
    private static final int MOST_DOWN = 4;
    private static final int LONGEST_DETAIL = 300;

    private final ValueTable table;
    private final Query query;
    private final Stamp now;
    private final List<Seen> window = new ArrayList<>();
    private final int[] qualities = new int[Quality.values().length];
    private int points;
    private int waiting;
    private int rows;

    /** A point and its reading, which is never changed, only replaced. */
    record Seen(SitePoint point, Reading reading, @Nullable AskedFor asked) {
        PointRow row(Stamp now) {
            return PointRow.of(point, reading, asked, now);
        }

        boolean isSameAs(Seen other) {
            return point.ordinal() == other.point.ordinal()
                    && reading == other.reading
                    && Objects.equals(asked, other.asked);
        }
    }

    private Snapshot(ValueTable table, Query query, Stamp now) {
        this.table = table;
        this.query = query;
        this.now = now;
    }

    static Snapshot take(ValueTable table, AskedFor.Source asked, Query query, Stamp now) {
        Snapshot snapshot = new Snapshot(table, query, now);
        PointFilter filter = new PointFilter(query.points());
        for (SitePoint point : table.points()) {
            if (point.definition().hasReadings() && filter.chooses(point)) {
                snapshot.add(point, table.reading(point), asked);
            }
        }
        return snapshot;
    }

    /** Who asks is looked up for what is sent alone. */
    private void add(SitePoint point, Reading reading, AskedFor.Source asked) {
        Quality quality = reading.quality();
        points++;
        qualities[quality.ordinal()]++;
        if (reading.reason() == Reason.NOT_READ_YET
                && table.link(point.controller()).state() != ControllerLink.State.DOWN) {
            waiting++;
        }
        if (query.qualities().isEmpty() || query.qualities().contains(quality)) {
            if (rows >= query.from() && window.size() < query.most()) {
                window.add(new Seen(point, reading, asked.of(point.id()).orElse(null)));
            }
            rows++;
        }
    }

    /** The rows of the query's part. */
    List<Seen> window() {
        return window;
    }

    Stamp now() {
        return now;
    }

    Summary summary() {
        List<String> down = new ArrayList<>();
        int count = 0;
        for (ControllerDefinition controller : table.controllers()) {
            ControllerLink link = table.link(controller);
            // A group answers as its members do, and they are told by themselves.
            if (!controller.isGroup() && link.state() == ControllerLink.State.DOWN && count++ < MOST_DOWN) {
                down.add(words(controller, link));
            }
        }
        return new Summary(
                now.wall(),
                points,
                qualities[Quality.GOOD.ordinal()],
                qualities[Quality.UNCERTAIN.ordinal()],
                qualities[Quality.STALE.ordinal()],
                qualities[Quality.BAD.ordinal()],
                waiting,
                rows,
                down,
                count);
    }

    private static String words(ControllerDefinition controller, ControllerLink link) {
        String words = controller.name() + ": " + link.cause().word() + ": " + link.detail();
        return words.length() <= LONGEST_DETAIL ? words : words.substring(0, LONGEST_DETAIL) + "…";
    }
}
