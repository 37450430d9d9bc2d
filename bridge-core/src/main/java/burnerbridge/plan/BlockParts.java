package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Takes a read apart into smaller ones. What must be read together stays so: the points of a group, and those that
 * share addresses.
 */
final class BlockParts {
    private final ReadBlock whole;

    BlockParts(ReadBlock whole) {
        this.whole = whole;
    }

    /** Points that are read together, and the addresses from the first of them to the last. */
    private static final class Unit {
        final List<SitePoint> points = new ArrayList<>();
        final int first;
        int last;

        Unit(int first) {
            this.first = first;
            this.last = first;
        }
    }

    /** Two reads for the first and the second half of what it consists of; none where that is one thing. */
    List<ReadBlock> halves() {
        List<Unit> units = units();
        if (units.size() < 2) {
            return List.of();
        }
        int middle = units.size() / 2;
        return List.of(block(units.subList(0, middle)), block(units.subList(middle, units.size())));
    }

    /** Reads for what lies before, between and after some points, which are left out with what is read with them. */
    List<ReadBlock> around(Collection<SitePoint> gone) {
        Set<SitePoint> leftOut = new HashSet<>(gone);
        List<ReadBlock> runs = new ArrayList<>();
        List<Unit> run = new ArrayList<>();
        for (Unit unit : units()) {
            if (unit.points.stream().noneMatch(leftOut::contains)) {
                run.add(unit);
            } else if (!run.isEmpty()) {
                runs.add(block(run));
                run.clear();
            }
        }
        if (!run.isEmpty()) {
            runs.add(block(run));
        }
        return runs;
    }

    private List<Unit> units() {
        List<SitePoint> sorted = whole.points().stream()
                .sorted(Comparator.comparingInt(BlockParts::first))
                .toList();
        Map<Name, Integer> lastOfGroup = new HashMap<>();
        sorted.forEach(point -> group(point).ifPresent(group -> lastOfGroup.merge(group, last(point), Math::max)));
        List<Unit> units = new ArrayList<>();
        for (SitePoint point : sorted) {
            if (units.isEmpty() || first(point) > units.get(units.size() - 1).last) {
                units.add(new Unit(first(point)));
            }
            Unit unit = units.get(units.size() - 1);
            unit.points.add(point);
            int last = group(point).map(lastOfGroup::get).orElse(last(point));
            unit.last = Math.max(unit.last, last);
        }
        return units;
    }

    private static Optional<Name> group(SitePoint point) {
        return point.definition().consistency().group();
    }

    private static int first(SitePoint point) {
        return point.definition().wireAddress();
    }

    private static int last(SitePoint point) {
        return first(point) + point.definition().format().width() - 1;
    }

    private ReadBlock block(List<Unit> units) {
        List<SitePoint> points =
                units.stream().flatMap(unit -> unit.points.stream()).toList();
        int first = units.get(0).first;
        ReadRequest request = whole.requests().get(0);
        int last = points.stream().mapToInt(BlockParts::last).max().orElseThrow();
        return new ReadBlock(
                whole.controller(),
                List.of(new ReadRequest(request.unit(), request.table(), first, last - first + 1, request.terms())),
                points.stream()
                        .anyMatch(point -> point.definition().consistency().twice()),
                points.stream()
                        .map(point -> point.definition().every())
                        .min(Comparator.naturalOrder())
                        .orElseThrow(),
                points);
    }
}
