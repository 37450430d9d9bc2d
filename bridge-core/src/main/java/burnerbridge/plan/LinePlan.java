package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

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
        Map<Name, Readable> readable = new HashMap<>();
        Map<Integer, List<SitePoint>> byController = new LinkedHashMap<>();
        points.stream()
                .filter(point -> point.definition().isPolled()
                        && point.controller().line().equals(line.name()))
                .forEach(point -> byController
                        .computeIfAbsent(point.controller().ordinal(), c -> new ArrayList<>())
                        .add(point));
        List<ReadBlock> blocks = new ArrayList<>();
        for (List<SitePoint> own : byController.values()) {
            ControllerDefinition controller = own.get(0).controller();
            ControllerType type = controller.type();
            blocks.addAll(Reads.of(
                    own,
                    readable.computeIfAbsent(type.name(), name -> Readable.of(type)),
                    CostModel.of(line),
                    turnarounds.of(controller)));
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

    /** What keeps points in one read: their group, else the very same addresses. */
    private record Key(
            int controller, Optional<Name> group, List<ReadRequest> requests, boolean twice, Duration every) {}

    /**
     * Plans, for every line, one read for each group and for each run of addresses that a polled point takes.
     *
     * @throws IllegalArgumentException where a read would take more than its controller answers at once, or
     *     anything reserved; a site that was checked has no such point
     */
    public static List<LinePlan> all(List<LineDefinition> lines, List<SitePoint> points) {
        Map<Name, Map<Key, List<SitePoint>>> byLine = new LinkedHashMap<>();
        for (SitePoint point : points) {
            if (point.definition().isPolled()) {
                byLine.computeIfAbsent(point.controller().line(), l -> new LinkedHashMap<>())
                        .computeIfAbsent(key(point), k -> new ArrayList<>())
                        .add(point);
            }
        }
        return lines.stream()
                .map(line -> new LinePlan(
                        line,
                        byLine.getOrDefault(line.name(), Map.of()).values().stream()
                                .map(LinePlan::block)
                                .toList()))
                .toList();
    }

    private static Key key(SitePoint point) {
        Consistency consistency = point.definition().consistency();
        int controller = point.controller().ordinal();
        if (consistency.group().isPresent()) {
            return new Key(controller, consistency.group(), List.of(), false, Duration.ZERO);
        }
        // What a read clears has one read, however often each of its points is wanted.
        Duration every = consistency.once() ? Duration.ZERO : point.definition().every();
        return new Key(controller, Optional.empty(), requests(List.of(point)), consistency.twice(), every);
    }

    /** A group is read as often and as carefully as any of its points wants. */
    private static ReadBlock block(List<SitePoint> points) {
        return new ReadBlock(
                points.get(0).controller(),
                requests(points),
                points.stream().anyMatch(p -> p.definition().consistency().twice()),
                points.stream()
                        .map(p -> p.definition().every())
                        .min(Comparator.naturalOrder())
                        .orElseThrow(),
                points);
    }

    private static List<ReadRequest> requests(List<SitePoint> points) {
        SitePoint one = points.get(0);
        List<AddressRange> ranges = one.definition().addresses();
        if (ranges.size() > 1) {
            return ranges.stream().map(range -> request(one, range)).toList();
        }
        int first = points.stream()
                .mapToInt(p -> p.definition().addresses().get(0).first())
                .min()
                .orElseThrow();
        int last = points.stream()
                .mapToInt(p -> p.definition().addresses().get(0).last())
                .max()
                .orElseThrow();
        return List.of(request(one, new AddressRange(one.definition().table(), first, last)));
    }

    private static ReadRequest request(SitePoint point, AddressRange range) {
        ControllerDefinition controller = point.controller();
        ReadRules rules = controller.type().rules();
        rules.objectionTo(range).ifPresent(objection -> {
            throw new IllegalArgumentException(point.id() + ": " + objection);
        });
        return new ReadRequest(
                controller.unit(),
                rules.readTable(range.table()),
                range.first(),
                range.count(),
                new ReadTerms(
                        controller.anyReplyUnit(),
                        point.definition().consistency().once(),
                        rules.pause()));
    }
}
