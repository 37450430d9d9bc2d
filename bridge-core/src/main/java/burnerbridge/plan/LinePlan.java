package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** The reads of one line. */
public record LinePlan(LineDefinition line, List<ReadBlock> blocks) {

    public LinePlan {
        blocks = List.copyOf(blocks);
    }

    /** What keeps points in one read: their group, else the very same addresses. */
    private record Key(
            int controller, Optional<Name> group, List<ReadRequest> requests, boolean twice, Duration every) {}

    /** Plans, for every line, one read for each group and for each run of addresses that a polled point takes. */
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
        PointDefinition definition = point.definition();
        Optional<Name> group = definition.consistency().group();
        int controller = point.controller().ordinal();
        return group.isPresent()
                ? new Key(controller, group, List.of(), false, Duration.ZERO)
                : new Key(
                        controller,
                        group,
                        requests(List.of(point)),
                        definition.consistency().twice(),
                        definition.every());
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
        OptionalInt lower = one.definition().consistency().lowerWord();
        if (lower.isPresent()) {
            return List.of(request(one, one.definition().wireAddress(), 1), request(one, lower.getAsInt(), 1));
        }
        int first = points.stream()
                .mapToInt(p -> p.definition().wireAddress())
                .min()
                .orElseThrow();
        int end = points.stream()
                .mapToInt(p ->
                        p.definition().wireAddress() + p.definition().format().width())
                .max()
                .orElseThrow();
        return List.of(request(one, first, end - first));
    }

    private static ReadRequest request(SitePoint point, int first, int count) {
        return new ReadRequest(point.controller().unit(), point.definition().table(), first, count);
    }
}
