package burnerbridge.plan;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * The reads of one line. Immutable.
 *
 * @param turnarounds what was known of the line's controllers when it was made
 */
public record LinePlan(LineDefinition line, List<ReadBlock> blocks, Turnarounds turnarounds) {

    public LinePlan {
        blocks = List.copyOf(blocks);
    }

    /** A plan made before anything was measured. */
    public LinePlan(LineDefinition line, List<ReadBlock> blocks) {
        this(line, blocks, Turnarounds.ASSUMED);
    }

    /** What transactions cost on its line. */
    public CostModel model() {
        return CostModel.of(line);
    }

    /**
     * The cheapest plan of a line.
     *
     * @param points those that are not polled, or on other lines, are left out
     * @throws IllegalArgumentException where a read would take more than its controller answers at once, or
     *     anything reserved; a site that was checked has no such point
     */
    public static LinePlan of(LineDefinition line, List<SitePoint> points, Turnarounds turnarounds) {
        Map<ControllerType, Readable> readable = new IdentityHashMap<>();
        Map<Integer, List<SitePoint>> byController = new LinkedHashMap<>();
        points.stream()
                .filter(point ->
                        point.definition().isPolled() && point.controller().isOn(line.name()))
                .forEach(point -> byController
                        .computeIfAbsent(point.controller().ordinal(), c -> new ArrayList<>())
                        .add(point));
        List<ReadBlock> blocks = new ArrayList<>();
        for (List<SitePoint> own : byController.values()) {
            ControllerDefinition controller = own.get(0).controller();
            ControllerType type = controller.type();
            blocks.addAll(Reads.of(
                    own, readable.computeIfAbsent(type, Readable::of), CostModel.of(line), turnarounds.of(controller)));
        }
        return new LinePlan(line, blocks, turnarounds);
    }

    /** The cheapest plan for the same points, given what is known of their controllers by now. */
    public LinePlan with(Turnarounds learned) {
        List<SitePoint> points = blocks.stream()
                .flatMap(block -> block.points().stream())
                .sorted(Comparator.comparingInt(SitePoint::ordinal))
                .toList();
        return of(line, points, learned);
    }

    /**
     * The cheapest reads for some points of one controller, which cross none of some others.
     *
     * @param points of the controller, all of them polled
     * @param notCrossed points of it whose addresses are in no read for something else, since they are refused
     * @throws IllegalArgumentException as {@link #of}
     */
    public static List<ReadBlock> reads(
            LineDefinition line, List<SitePoint> points, Collection<SitePoint> notCrossed, Duration turnaround) {
        if (points.isEmpty()) {
            return List.of();
        }
        Readable readable = Readable.of(points.get(0).controller().type()).without(notCrossed, points);
        return Reads.of(points, readable, CostModel.of(line), turnaround);
    }

    /**
     * The cheapest plan of every line, before anything was measured.
     *
     * @throws IllegalArgumentException as {@link #of}
     */
    public static List<LinePlan> all(List<LineDefinition> lines, List<SitePoint> points) {
        Map<Name, List<SitePoint>> byLine = points.stream()
                .filter(point -> point.definition().isPolled())
                .collect(Collectors.groupingBy(point -> point.controller().line()));
        return lines.stream()
                .map(line -> of(line, byLine.getOrDefault(line.name(), List.of()), Turnarounds.ASSUMED))
                .toList();
    }
}
