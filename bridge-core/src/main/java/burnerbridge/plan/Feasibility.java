package burnerbridge.plan;

import burnerbridge.plan.Prediction.Cost;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BinaryOperator;

/**
 * Which reads cannot always be made in time when the one whose interval ends first goes first and none is
 * broken off.
 *
 * <p>All can, whatever their phases, if the line is not wanted for more than all of its time and every span of
 * time has room for all reads that begin and must end in it, and for the rest of one that does not (K. Jeffay,
 * D. F. Stanat, C. U. Martel: On non-preemptive scheduling of periodic and sporadic tasks, 1991; from memory).
 * A controller's pauses are its own time, not the line's, and are left out of this.
 */
final class Feasibility {
    /** Where the line is wanted for almost all of its time, longer spans are not looked at. */
    private static final long LONGEST_SPAN = Duration.ofMinutes(10).toNanos();

    private final SortedMap<Long, Long> busy = new TreeMap<>();
    private final SortedMap<Long, Long> longest = new TreeMap<>();
    private final Map<Integer, Double> controllers = new HashMap<>();
    private double line;

    private Feasibility(List<Cost> costs) {
        for (Cost cost : costs) {
            busy.merge(cost.every(), cost.bus(), Long::sum);
            longest.merge(cost.every(), cost.bus(), BinaryOperator.maxBy(Long::compare));
            controllers.merge(controller(cost), (double) cost.taken() / cost.every(), Double::sum);
            line += cost.busShare();
        }
    }

    private static int controller(Cost cost) {
        return cost.block().controller().ordinal();
    }

    static List<Late> late(List<Cost> costs) {
        Feasibility feasibility = new Feasibility(costs);
        Map<Long, Boolean> heldUp = new HashMap<>();
        feasibility.busy.keySet().forEach(every -> heldUp.put(every, feasibility.isHeldUp(every)));
        return costs.stream()
                .flatMap(cost -> feasibility.late(cost, heldUp.getOrDefault(cost.every(), false)).stream())
                .toList();
    }

    private Optional<Late> late(Cost cost, boolean heldUp) {
        double controller = controllers.getOrDefault(controller(cost), 0.0);
        if (cost.taken() > cost.every()) {
            return Optional.of(new Late(cost.block(), Late.Why.TOO_LONG, Duration.ofNanos(cost.taken())));
        }
        if (line > 1 && line >= controller) {
            return Optional.of(late(cost, Late.Why.LINE_OVERLOADED, line));
        }
        if (controller > 1) {
            return Optional.of(late(cost, Late.Why.CONTROLLER_OVERLOADED, controller));
        }
        return heldUp ? Optional.of(late(cost, Late.Why.HELD_UP, 1)) : Optional.empty();
    }

    private static Late late(Cost cost, Late.Why why, double factor) {
        return new Late(cost.block(), why, Duration.ofNanos(Math.round(cost.every() * factor)));
    }

    /** Whether a span that ends with an interval has no room for all that it must have. */
    private boolean isHeldUp(long every) {
        if (line > 1) {
            return true;
        }
        // In a longer span there is room for the longest read beside all that are wanted.
        double enough = longestOver(0) / Math.max(1 - line, 1e-9);
        long end = (long) Math.min(enough, LONGEST_SPAN);
        for (long span = every; span <= Math.max(end, every); span += every) {
            if (wanted(span) + longestOver(span) > span) {
                return true;
            }
        }
        return false;
    }

    private long wanted(long span) {
        return busy.headMap(span + 1).entrySet().stream()
                .mapToLong(entry -> span / entry.getKey() * entry.getValue())
                .sum();
    }

    private long longestOver(long span) {
        return longest.tailMap(span + 1).values().stream()
                .mapToLong(Long::longValue)
                .max()
                .orElse(0);
    }
}
