package burnerbridge.table;

import burnerbridge.model.BitValue;
import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reading.Good;
import burnerbridge.model.Reason;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.Condition;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Holds readings against the conditions of their points. A reading is never better than it is: while the
 * condition does not hold it is not applicable, whatever it says, and while nobody knows whether it holds,
 * the reading is at most as good as that of the point the condition hangs on. Any thread may ask.
 */
public final class Conditions {
    private final ValueTable table;
    private final Map<SitePoint, SitePoint> hangsOn = new HashMap<>();
    private final Map<SitePoint, List<SitePoint>> dependents = new HashMap<>();

    /** @param table with both points of every condition */
    Conditions(ValueTable table) {
        this.table = table;
        Map<Integer, Map<Name, SitePoint>> byName = new HashMap<>();
        for (SitePoint point : table.points()) {
            byName.computeIfAbsent(point.controller().ordinal(), c -> new HashMap<>())
                    .put(point.definition().name(), point);
        }
        for (SitePoint point : table.points()) {
            condition(point).map(c -> of(byName, point, c)).ifPresent(other -> {
                hangsOn.put(point, other);
                dependents.computeIfAbsent(other, o -> new ArrayList<>()).add(point);
            });
        }
    }

    private static SitePoint of(Map<Integer, Map<Name, SitePoint>> byName, SitePoint point, Condition condition) {
        SitePoint other =
                byName.getOrDefault(point.controller().ordinal(), Map.of()).get(condition.point());
        if (other == null) {
            throw new IllegalArgumentException(point.id() + " hangs on " + condition.point() + ", which is not there");
        }
        return other;
    }

    private static Optional<Condition> condition(SitePoint point) {
        return point.definition().options().when();
    }

    public boolean isConditional(SitePoint point) {
        return hangsOn.containsKey(point);
    }

    /** The points that mean something only in some states of this one. */
    public List<SitePoint> dependents(SitePoint point) {
        return dependents.getOrDefault(point, List.of());
    }

    /** Whether a point's condition is known to hold; true without one. */
    public boolean isMet(SitePoint point) {
        SitePoint other = hangsOn.get(point);
        if (other == null) {
            return true;
        }
        Reading reading = table.reading(other);
        return reading.isGood() && isAmong(condition(point).orElseThrow(), reading.value());
    }

    /** What may be said of a reading that was just made, before it is published. */
    public Reading held(SitePoint point, Reading next) {
        return hangsOn.containsKey(point)
                ? held(point, next, table.reading(point).newestGood())
                : next;
    }

    /** Holds the present reading of a point against its condition, which may have changed since. */
    public void settle(SitePoint point) {
        if (hangsOn.containsKey(point)) {
            Reading present = table.reading(point);
            Reading held = held(point, present, present.newestGood());
            if (held != present) {
                table.replace(point, present, held);
            }
        }
    }

    private Reading held(SitePoint point, Reading own, Optional<Good> lastGood) {
        SitePoint other = hangsOn.get(point);
        boolean isReply = own.askedAt() != null && own.reason() != Reason.REFUSED && own.quality() != Quality.STALE;
        if (other == null || !isReply || isMet(point)) {
            return own;
        }
        Reading condition = table.reading(other);
        if (condition.quality() == Quality.GOOD || condition.quality() == Quality.UNCERTAIN) {
            return without(own, Reason.NOT_APPLICABLE, 0, lastGood);
        }
        return own.quality().compareTo(condition.quality()) < 0
                ? without(own, condition.reason(), condition.exceptionCode(), lastGood)
                : own;
    }

    /** A condition that holds again makes no old reading good: who knows when it began to hold. */
    private static Reading without(Reading own, Reason reason, int exceptionCode, Optional<Good> lastGood) {
        return own.reason() == reason
                ? own
                : new Reading(null, reason, own.askedAt(), own.raw(), exceptionCode, lastGood.orElse(null));
    }

    private static boolean isAmong(Condition condition, @Nullable Value value) {
        if (value instanceof BitValue bit) {
            return condition.states().contains(bit.on() ? 1L : 0L);
        }
        return value instanceof StateValue state && condition.states().contains(state.number());
    }
}
