package burnerbridge.config.point;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.Consistency;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.ReadRules;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Puts the points that are to be read together into groups that one transaction can read. */
final class GroupCheck {
    private final Map<Name, PointDefinition> points = new LinkedHashMap<>();
    private final Map<Name, Place> places;
    private final ReadRules rules;
    private final Problems problems;

    /**
     * @param places where the row of each point stands
     * @param rules what its controllers ask of a reader, with what the list reserves
     */
    GroupCheck(List<PointDefinition> list, Map<Name, Place> places, ReadRules rules, Problems problems) {
        this.rules = rules;
        list.forEach(point -> points.put(point.name(), point));
        this.places = places;
        this.problems = problems;
    }

    /** The points, those that another's scale-by names now in its group. */
    List<PointDefinition> run() {
        List.copyOf(points.values()).forEach(this::joinItsDecimals);
        Map<Name, List<PointDefinition>> groups = new LinkedHashMap<>();
        for (PointDefinition point : points.values()) {
            point.consistency()
                    .group()
                    .ifPresent(group -> groups.computeIfAbsent(group, g -> new ArrayList<>())
                            .add(point));
        }
        groups.forEach(this::check);
        return List.copyOf(points.values());
    }

    private void error(PointDefinition point, String message) {
        Place place = places.get(point.name());
        problems.error(place == null ? Place.wholeFile("") : place, message);
    }

    private void joinItsDecimals(PointDefinition point) {
        Consistency consistency = point.consistency();
        if (consistency.scaleBy().isEmpty()) {
            return;
        }
        Name wanted = consistency.scaleBy().get();
        PointDefinition decimals = points.get(wanted);
        if (decimals == null || decimals.name().equals(point.name()) || !holdsDecimals(decimals)) {
            error(
                    point,
                    "scale-by: must name a point of this list that is read, holds a whole number and has neither scale"
                            + " nor states (was '" + wanted + "')"
                            + NearestWord.hint(
                                    wanted.text(),
                                    points.keySet().stream().map(Name::text).toList()));
            return;
        }
        Name group = consistency.group().or(decimals.consistency()::group).orElseGet(() -> new Name("by-" + wanted));
        join(point, group);
        join(decimals, group);
    }

    private static boolean holdsDecimals(PointDefinition point) {
        return point.format().isWhole()
                && point.scaling().isNone()
                && point.states().isEmpty()
                && point.isPolled()
                && point.consistency().scaleBy().isEmpty()
                && !point.consistency().once();
    }

    private void join(PointDefinition point, Name group) {
        PointDefinition present = points.getOrDefault(point.name(), point);
        if (present.consistency().group().filter(g -> !g.equals(group)).isPresent()) {
            error(
                    present,
                    "read-group: " + present.name() + " is to be read with group " + group + " too, and a point has one"
                            + " group (was '" + present.consistency().group().get() + "')");
        } else {
            points.put(present.name(), present.inGroup(group));
        }
    }

    private void check(Name group, List<PointDefinition> members) {
        PointDefinition one = members.get(0);
        for (PointDefinition member : members) {
            if (!isOfOneTable(member, one) || member.consistency().lowerWord().isPresent()) {
                error(
                        member,
                        "read-group: the points of group " + group + " must lie in one table, each in one piece ("
                                + member.name() + " is at " + member.addressText() + ", " + one.name() + " at "
                                + one.addressText() + ")");
                return;
            }
        }
        BitSet wanted = addresses(members);
        int first = wanted.nextSetBit(0);
        int count = wanted.length() - first;
        int gap = firstOfNoRow(one, first, wanted.length());
        if (count > one.table().mostInOneRead()) {
            error(
                    one,
                    "read-group: group " + group + " spans " + count + " addresses, and one transaction reads "
                            + one.table().mostInOneRead());
        } else if (gap >= 0) {
            error(
                    one,
                    "read-group: group " + group + " reaches over wire address " + gap
                            + ", which is in no row that can be read, so that reading it may be refused");
        }
    }

    private boolean isOfOneTable(PointDefinition point, PointDefinition other) {
        return rules.readTable(point.table()) == rules.readTable(other.table());
    }

    private static BitSet addresses(Iterable<PointDefinition> some) {
        BitSet addresses = new BitSet();
        for (PointDefinition point : some) {
            addresses.set(
                    point.wireAddress(), point.wireAddress() + point.format().width());
        }
        return addresses;
    }

    /** Only what the list knows of is read across. */
    private int firstOfNoRow(PointDefinition one, int first, int end) {
        BitSet known = addresses(points.values().stream()
                .filter(point -> isOfOneTable(point, one) && !point.options().writeOnly())
                .toList());
        // That it must not be read is said of a reserved address, not that nothing is known of it.
        rules.reserved().stream()
                .filter(range -> rules.readTable(range.table()) == rules.readTable(one.table()))
                .forEach(range -> known.set(range.first(), range.last() + 1));
        rules.readable().stream()
                .filter(range -> rules.readTable(range.table()) == rules.readTable(one.table()))
                .forEach(range -> known.set(range.first(), range.last() + 1));
        int gap = known.nextClearBit(first);
        return gap < end ? gap : -1;
    }
}
