package burnerbridge.table;

import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Stamp;
import burnerbridge.site.SitePoint;

/**
 * Makes readings stale that have grown too old, and with them those whose condition hangs on them. Stepped: {@link #step} does one pass and says when the
 * next is due.
 */
public final class StaleSweep {
    /** A pass never comes sooner after the last, nor later, than this. */
    static final long SHORTEST_PAUSE = 50_000_000L;

    static final long LONGEST_PAUSE = 1_000_000_000L;

    private final ValueTable table;
    private final Conditions conditions;

    public StaleSweep(ValueTable table) {
        this.table = table;
        this.conditions = table.conditions();
    }

    /** One pass over the table at a tick; returns the tick at which the next pass is due. */
    public long step(long nowTicks) {
        long soonest = LONGEST_PAUSE;
        for (SitePoint point : table.points()) {
            Reading reading = table.reading(point);
            Stamp askedAt = reading.askedAt();
            if (askedAt == null || reading.quality() == Quality.STALE || isRefusalThatHolds(point, reading)) {
                continue;
            }
            long left = point.definition().staleAfter().toNanos() - askedAt.ageAt(nowTicks);
            if (left <= 0) {
                table.replace(point, reading, reading.staled(reasonFor(point)));
            } else {
                soonest = Math.min(soonest, left);
            }
        }
        table.points().forEach(conditions::settle);
        return nowTicks + Math.max(SHORTEST_PAUSE, soonest);
    }

    /** Registers that were refused are asked for seldom: what was said of them holds as long as their controller answers. */
    private boolean isRefusalThatHolds(SitePoint point, Reading reading) {
        return reading.reason() == Reason.REFUSED
                && table.link(point.controller()).state() == ControllerLink.State.UP;
    }

    private Reason reasonFor(SitePoint point) {
        return table.link(point.controller()).cause() == ControllerLink.Cause.LINE_DOWN
                ? Reason.LINE_DOWN
                : Reason.NO_REPLY;
    }
}
