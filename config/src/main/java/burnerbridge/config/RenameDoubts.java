package burnerbridge.config;

import burnerbridge.config.BindingPlan.Doubt;
import burnerbridge.config.BindingRow.Gone;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Finds bindings without a point and points without a binding that may be the same under another name. Such a
 * pair is left alone until a person has said which it is: a rename must neither move an instance nor hand it
 * to another point.
 */
final class RenameDoubts {
    private final Map<Name, ControllerType> types;
    private final Predicate<Name> isWhole;
    private final List<BindingRow> rows;
    private final Set<String> fresh;

    private final List<Doubt> doubts = new ArrayList<>();
    private final Set<String> held = new HashSet<>();

    RenameDoubts(Map<Name, ControllerType> types, Predicate<Name> isWhole, List<BindingRow> rows, Set<String> fresh) {
        this.types = types;
        this.isWhole = isWhole;
        this.rows = rows;
        this.fresh = fresh;
    }

    List<Doubt> find() {
        rows.stream().map(BindingRow::type).distinct().forEach(name -> {
            if (types.containsKey(name)) {
                doubtPoints(name);
            } else if (isWhole.test(name)) {
                doubtType(name);
            }
        });
        return doubts;
    }

    /** Whether a point or binding is left alone. */
    boolean holds(Name type, Name point) {
        return held.contains(type + "." + point) || held.contains(type.text());
    }

    private void doubtType(Name gone) {
        Set<Name> names = rows.stream()
                .filter(row -> row.type().equals(gone) && row.isLive())
                .map(BindingRow::point)
                .collect(Collectors.toSet());
        types.values().stream()
                .filter(type -> !fresh.contains(type.name().text())
                        && !held.contains(type.name().text())
                        && rows.stream().noneMatch(row -> row.type().equals(type.name()))
                        && sharesHalf(type, names))
                .findFirst()
                .ifPresent(type -> {
                    held.add(gone.text());
                    held.add(type.name().text());
                    BindingRow first = rows.stream()
                            .filter(row -> row.type().equals(gone))
                            .findFirst()
                            .orElseThrow();
                    doubts.add(new Doubt(
                            first.place(),
                            "type " + gone + " is not in site.yaml, and type " + type.name()
                                    + ", which has no bindings,"
                                    + " has most of its points; both stay as they are until you say. The same type"
                                    + " under a new name: 'check --bind --renamed " + gone + "=" + type.name()
                                    + "'. Another type: 'check --bind --new " + type.name() + "'"));
                });
    }

    private static boolean sharesHalf(ControllerType type, Set<Name> names) {
        long shared = type.points().stream()
                .filter(point -> names.contains(point.name()))
                .count();
        return shared > 0 && shared * 2 >= names.size();
    }

    private void doubtPoints(Name type) {
        List<PointDefinition> points = types.containsKey(type) && isWhole.test(type) ? pointsOf(type) : List.of();
        Map<Name, PointDefinition> byName = new HashMap<>();
        points.forEach(point -> byName.put(point.name(), point));
        for (BindingRow row : rows) {
            boolean vanished = row.type().equals(type) && row.isLive() && !byName.containsKey(row.point());
            if (vanished && !points.isEmpty()) {
                follow(row, points, byName);
            }
        }
    }

    private List<PointDefinition> pointsOf(Name type) {
        ControllerType found = types.get(type);
        return found == null ? List.of() : found.points();
    }

    /** From a binding to the point that is read where it was, and on, until one without a binding. */
    private void follow(BindingRow vanished, List<PointDefinition> points, Map<Name, PointDefinition> byName) {
        Set<BindingRow> chain = new LinkedHashSet<>();
        Optional<BindingRow> current = Optional.of(vanished);
        while (current.isPresent() && chain.add(current.get())) {
            BindingRow row = current.get();
            Optional<PointDefinition> unbound = points.stream()
                    .filter(point -> mayBe(row, point) && isUnbound(row.type(), point))
                    .findFirst();
            if (unbound.isPresent()) {
                doubt(new ArrayList<>(chain), unbound.get());
                return;
            }
            current = points.stream()
                    .filter(point -> mayBe(row, point))
                    .flatMap(point -> live(row.type(), point.name()).stream())
                    .filter(other -> !chain.contains(other) && isReadFromElsewhere(other, byName))
                    .findFirst();
        }
    }

    private static boolean mayBe(BindingRow row, PointDefinition point) {
        return (!row.at().isEmpty() && row.at().equals(BindingPlanner.at(point)))
                || row.was().contains(point.name().text());
    }

    private boolean isUnbound(Name type, PointDefinition point) {
        String id = type + "." + point.name();
        return point.wantsObject()
                && !fresh.contains(id)
                && !held.contains(id)
                && rows.stream().noneMatch(row -> row.isOf(type, point.name()) && row.gone() != Gone.FOR_GOOD);
    }

    private Optional<BindingRow> live(Name type, Name point) {
        return rows.stream()
                .filter(row -> row.isOf(type, point) && row.isLive())
                .findFirst();
    }

    private static boolean isReadFromElsewhere(BindingRow row, Map<Name, PointDefinition> byName) {
        PointDefinition point = byName.get(row.point());
        return point != null && !row.at().isEmpty() && !row.at().equals(BindingPlanner.at(point));
    }

    private void doubt(List<BindingRow> chain, PointDefinition unbound) {
        BindingRow vanished = chain.get(0);
        StringBuilder renames = new StringBuilder();
        for (int i = 0; i < chain.size(); i++) {
            Name to = i + 1 < chain.size() ? chain.get(i + 1).point() : unbound.name();
            renames.append(" --renamed ").append(chain.get(i).id()).append('=').append(to);
        }
        held.add(vanished.id());
        held.add(vanished.type() + "." + unbound.name());
        doubts.add(new Doubt(
                vanished.place(),
                vanished.id() + " is in no point list, and " + unbound.name() + ", which has no binding, "
                        + (chain.size() > 1
                                ? "is read where another point was read that took its place"
                                : "is read from the same place or had its name")
                        + "; both stay as they are until you say. The same point under a new name: 'check --bind"
                        + renames + "'. Another point: 'check --bind --new " + vanished.type() + "." + unbound.name()
                        + "'"));
    }
}
