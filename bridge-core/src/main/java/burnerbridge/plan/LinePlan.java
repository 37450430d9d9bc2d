package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;

/** The reads of one line. */
public record LinePlan(LineDefinition line, List<ReadBlock> blocks) {

    public LinePlan {
        blocks = List.copyOf(blocks);
    }

    /** Points that need the very same read share it. */
    private record Key(int controller, List<ReadRequest> requests, boolean twice, Duration every) {}

    /** Plans, for every line, one read for each run of addresses that a polled point takes. */
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
                .map(line -> new LinePlan(line, blocks(byLine.getOrDefault(line.name(), Map.of()))))
                .toList();
    }

    private static List<ReadBlock> blocks(Map<Key, List<SitePoint>> reads) {
        return reads.entrySet().stream()
                .map(read -> new ReadBlock(
                        read.getValue().get(0).controller(),
                        read.getKey().requests(),
                        read.getKey().twice(),
                        read.getKey().every(),
                        read.getValue()))
                .toList();
    }

    private static Key key(SitePoint point) {
        PointDefinition definition = point.definition();
        OptionalInt lower = definition.consistency().lowerWord();
        List<ReadRequest> requests = lower.isPresent()
                ? List.of(request(point, definition.wireAddress(), 1), request(point, lower.getAsInt(), 1))
                : List.of(request(
                        point, definition.wireAddress(), definition.format().width()));
        return new Key(
                point.controller().ordinal(), requests, definition.consistency().twice(), definition.every());
    }

    private static ReadRequest request(SitePoint point, int first, int count) {
        return new ReadRequest(point.controller().unit(), point.definition().table(), first, count);
    }
}
