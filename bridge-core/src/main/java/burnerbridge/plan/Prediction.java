package burnerbridge.plan;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/** What a plan will take, known before anyone connects. */
public final class Prediction {
    private final LinePlan plan;
    private final List<Cost> costs;

    /** A read with its bus time, and with the time for which its controller is taken by it, in nanoseconds. */
    record Cost(ReadBlock block, long bus, long taken) {
        static Cost of(ReadBlock block, LinePlan plan) {
            Duration turnaround = plan.turnarounds().of(block.controller());
            long bus = plan.model().of(block, turnaround).toNanos();
            long pause = block.requests().get(0).terms().pause().toNanos();
            return new Cost(block, bus, bus + block.transactions() * pause);
        }

        long every() {
            return block.every().toNanos();
        }

        double busShare() {
            return (double) bus / every();
        }
    }

    /**
     * What some reads take.
     *
     * @param reads how many they are
     * @param scan how long it takes to make each of them once: their bus time, or what a controller
     *     with its pauses takes, whichever is longer
     * @param share of the line's time that they keep it busy, 1 for all of it
     */
    public record Load(int reads, Duration scan, double share) {}

    /**
     * What a row costs.
     *
     * @param share of the line's time that its read would take less without it
     */
    public record RowCost(SitePoint point, double share) {}

    private Prediction(LinePlan plan) {
        this.plan = plan;
        this.costs = plan.blocks().stream().map(block -> Cost.of(block, plan)).toList();
    }

    public static Prediction of(LinePlan plan) {
        return new Prediction(plan);
    }

    /** Of the whole line. */
    public Load line() {
        return load(costs);
    }

    /** Of each controller, in the order of the site. */
    public Map<ControllerDefinition, Load> controllers() {
        SortedMap<Integer, List<Cost>> byOrdinal =
                grouped(cost -> cost.block().controller().ordinal());
        Map<ControllerDefinition, Load> loads = new LinkedHashMap<>();
        byOrdinal.values().forEach(own -> loads.put(own.get(0).block().controller(), load(own)));
        return loads;
    }

    /** Of all reads that are made at an interval, the shortest first. */
    public SortedMap<Duration, Load> intervals() {
        SortedMap<Duration, Load> loads = new TreeMap<>();
        grouped(cost -> cost.block().every()).forEach((every, some) -> loads.put(every, load(some)));
        return loads;
    }

    /** Of the reads of each controller at each interval, in the order of the site, the shortest interval first. */
    public Map<ControllerDefinition, SortedMap<Duration, Load>> scans() {
        SortedMap<Integer, List<Cost>> byOrdinal =
                grouped(cost -> cost.block().controller().ordinal());
        Map<ControllerDefinition, SortedMap<Duration, Load>> scans = new LinkedHashMap<>();
        byOrdinal.values().forEach(own -> {
            SortedMap<Duration, List<Cost>> byInterval = new TreeMap<>();
            own.forEach(cost -> byInterval
                    .computeIfAbsent(cost.block().every(), every -> new ArrayList<>())
                    .add(cost));
            SortedMap<Duration, Load> loads = new TreeMap<>();
            byInterval.forEach((every, some) -> loads.put(every, load(some)));
            scans.put(own.get(0).block().controller(), loads);
        });
        return scans;
    }

    private <K extends Comparable<K>> SortedMap<K, List<Cost>> grouped(Function<Cost, K> key) {
        SortedMap<K, List<Cost>> groups = new TreeMap<>();
        costs.forEach(cost ->
                groups.computeIfAbsent(key.apply(cost), k -> new ArrayList<>()).add(cost));
        return groups;
    }

    private static Load load(Collection<Cost> costs) {
        Map<Integer, Long> taken = new LinkedHashMap<>();
        costs.forEach(cost -> taken.merge(cost.block().controller().ordinal(), cost.taken(), Long::sum));
        long bus = costs.stream().mapToLong(Cost::bus).sum();
        long longest = taken.values().stream().mapToLong(Long::longValue).max().orElse(0);
        double share = costs.stream().mapToDouble(Cost::busShare).sum();
        return new Load(costs.size(), Duration.ofNanos(Math.max(bus, longest)), share);
    }

    /** The reads whose points are not read as often as they want. */
    public List<Late> late() {
        return Feasibility.late(costs);
    }

    /**
     * The rows that cost most, the dearest first. What a row costs is what its read, and that alone, would cost
     * less without it: a shorter read, or one at a longer interval, or two in its place where that is
     * cheaper. A row that lies between others or shares its addresses may cost nothing. Where all points have
     * one interval and the controller asks for no pause, a plan made without the row is at least that much
     * cheaper.
     */
    public List<RowCost> dearest(int most) {
        return costs.stream()
                .flatMap(cost -> RowCosts.of(cost, plan))
                .sorted(Comparator.comparingDouble(RowCost::share)
                        .reversed()
                        .thenComparing(row -> row.point().ordinal()))
                .limit(most)
                .toList();
    }
}
