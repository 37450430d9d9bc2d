package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Points that are in one read in any plan: a group; those of the very same addresses that must be read in a
 * way of their own; else a point by itself.
 */
record Bundle(List<SitePoint> points) {

    Bundle {
        points = List.copyOf(points);
    }

    /** What keeps points together; the ordinal where nothing does. */
    private record Key(Optional<Name> group, List<AddressRange> addresses, boolean once, int ordinal) {
        static Key of(SitePoint point) {
            Consistency consistency = point.definition().consistency();
            if (consistency.group().isPresent()) {
                return new Key(consistency.group(), List.of(), false, -1);
            }
            return isAlone(point)
                    ? new Key(Optional.empty(), asRead(point), consistency.once(), -1)
                    : new Key(Optional.empty(), List.of(), false, point.ordinal());
        }
    }

    /** The bundles of some points of one controller. */
    static List<Bundle> of(List<SitePoint> points) {
        Map<Key, List<SitePoint>> byKey = new LinkedHashMap<>();
        for (SitePoint point : points) {
            byKey.computeIfAbsent(Key.of(point), key -> new ArrayList<>()).add(point);
        }
        return byKey.values().stream().map(Bundle::new).toList();
    }

    private static boolean isAlone(SitePoint point) {
        Consistency consistency = point.definition().consistency();
        return consistency.twice()
                || consistency.once()
                || consistency.lowerWord().isPresent();
    }

    private static List<AddressRange> asRead(SitePoint point) {
        return point.definition().addresses().stream()
                .map(point.controller().type().rules()::asRead)
                .toList();
    }

    /** Whether it has a read of its own, whatever else is read. */
    boolean isAlone() {
        return points.stream().anyMatch(Bundle::isAlone);
    }

    boolean isTwice() {
        return points.stream()
                .anyMatch(point -> point.definition().consistency().twice());
    }

    boolean isOnce() {
        return points.get(0).definition().consistency().once();
    }

    /** The shortest interval of its points. */
    Duration every() {
        return points.stream()
                .map(point -> point.definition().every())
                .min(Comparator.naturalOrder())
                .orElseThrow();
    }

    /** What it takes, by the table by which it is read: one range, or two words that are apart. */
    List<AddressRange> ranges() {
        List<AddressRange> one = asRead(points.get(0));
        return one.size() > 1 ? one : List.of(hull());
    }

    private AddressRange hull() {
        List<AddressRange> all =
                points.stream().flatMap(point -> asRead(point).stream()).toList();
        return new AddressRange(
                all.get(0).table(),
                all.stream().mapToInt(AddressRange::first).min().orElseThrow(),
                all.stream().mapToInt(AddressRange::last).max().orElseThrow());
    }
}
