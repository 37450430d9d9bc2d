package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingPlan.Doubt;
import burnerbridge.config.binding.BindingRow.Gone;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Finds bindings without a point and points without a binding that may be the same under another name. Such a
 * pair is left alone until a person has said which it is: a rename must neither move an instance nor hand it
 * to another point.
 */
final class RenameDoubts {
    private final Map<Name, ControllerType> types;
    private final Predicate<Name> isWhole;
    private final List<BindingRow> rows;
    private final Set<String> notRenamed;

    private final List<Doubt> doubts = new ArrayList<>();
    private final Set<String> held = new HashSet<>();

    RenameDoubts(
            Map<Name, ControllerType> types, Predicate<Name> isWhole, List<BindingRow> rows, Set<String> notRenamed) {
        this.types = types;
        this.isWhole = isWhole;
        this.rows = rows;
        this.notRenamed = notRenamed;
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
        List<BindingRow> own = rows.stream()
                .filter(row -> row.type().equals(gone) && row.isLive())
                .toList();
        List<ControllerType> unbound = types.values().stream()
                .filter(type -> rows.stream().noneMatch(row -> row.type().equals(type.name())))
                .filter(type -> !notRenamed.contains(type.name().text())
                        && !held.contains(type.name().text()))
                .toList();
        unbound.stream()
                .filter(type -> !own.isEmpty() && (unbound.size() == 1 || sharesHalf(type, own)))
                .findFirst()
                .ifPresent(type -> {
                    held.add(gone.text());
                    held.add(type.name().text());
                    doubts.add(new Doubt(own.get(0).place(), typeQuestion(gone, type.name())));
                });
    }

    private static String typeQuestion(Name gone, Name type) {
        return "type " + gone + " is not in site.yaml, and type " + type + " has no bindings; both stay as they are"
                + " until you say. The same type under a new name: 'check --bind --renamed " + gone + "=" + type
                + "'. Another type: 'check --bind --not-renamed " + type + "'";
    }

    private static boolean sharesHalf(ControllerType type, List<BindingRow> own) {
        long shared = type.points().stream()
                .filter(point -> own.stream().anyMatch(row -> row.point().equals(point.name()) || isReadAt(row, point)))
                .count();
        return shared > 0 && shared * 2 >= Math.min(type.points().size(), own.size());
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

    /** From a binding to the point that is read where it was, and on, to one that is new or not read elsewhere. */
    private void follow(BindingRow vanished, List<PointDefinition> points, Map<Name, PointDefinition> byName) {
        List<BindingRow> chain = new ArrayList<>(List.of(vanished));
        boolean readdressed = isReaddressed(vanished.type(), byName);
        while (true) {
            BindingRow row = chain.get(chain.size() - 1);
            Optional<PointDefinition> unbound =
                    points.stream().filter(point -> mayBecome(row, point)).findFirst();
            if (unbound.isPresent()) {
                doubt(chain, Optional.of(unbound.get().name()));
                return;
            }
            Optional<BindingRow> next = readdressed
                    ? Optional.empty()
                    : points.stream()
                            .filter(point -> isReadAt(row, point) && !isStated(row.type(), point))
                            .flatMap(point -> live(row.type(), point.name()).stream())
                            .filter(other -> !chain.contains(other) && isReadFromElsewhere(other, byName))
                            .findFirst();
            if (next.isEmpty()) {
                break;
            }
            chain.add(next.get());
        }
        if (chain.size() > 1) {
            doubt(chain, Optional.empty());
        }
    }

    /** Whether so many points are read from elsewhere that addresses were put right rather than names changed. */
    private boolean isReaddressed(Name type, Map<Name, PointDefinition> byName) {
        List<BindingRow> live = rows.stream()
                .filter(row -> row.type().equals(type) && row.isLive())
                .toList();
        long moved =
                live.stream().filter(row -> isReadFromElsewhere(row, byName)).count();
        return moved * 2 > live.size();
    }

    private static boolean isReadAt(BindingRow row, PointDefinition point) {
        return !row.at().isEmpty() && row.at().equals(BindingPlanner.at(point));
    }

    /** Whether a point without a binding may be a row's under another name. */
    private boolean mayBecome(BindingRow row, PointDefinition point) {
        boolean hadItsName = row.was().contains(point.name().text());
        if (!isReadAt(row, point) && !hadItsName) {
            return false;
        }
        boolean isItself = rows.stream()
                .filter(own -> own.isOf(row.type(), point.name()))
                .anyMatch(own -> own.isLive() || (own.gone() == Gone.YES && !isReadAt(row, point)));
        return point.wantsObject() && !isItself && !isStated(row.type(), point);
    }

    /** Whether a person has said that a point is no renamed one, or it is in doubt already. */
    private boolean isStated(Name type, PointDefinition point) {
        String id = type + "." + point.name();
        return notRenamed.contains(id) || held.contains(id);
    }

    private Optional<BindingRow> live(Name type, Name point) {
        return rows.stream()
                .filter(row -> row.isOf(type, point) && row.isLive())
                .findFirst();
    }

    private static boolean isReadFromElsewhere(BindingRow row, Map<Name, PointDefinition> byName) {
        PointDefinition point = byName.get(row.point());
        return point != null && !row.at().isEmpty() && !isReadAt(row, point);
    }

    private void doubt(List<BindingRow> chain, Optional<Name> unbound) {
        BindingRow vanished = chain.get(0);
        List<Name> names = new ArrayList<>(chain.stream().map(BindingRow::point).toList());
        unbound.ifPresent(names::add);
        StringBuilder renamed = new StringBuilder();
        StringBuilder notRenamed = new StringBuilder();
        for (int i = 1; i < names.size(); i++) {
            renamed.append(" --renamed ").append(vanished.type() + "." + names.get(i - 1) + "=" + names.get(i));
            notRenamed.append(" --not-renamed ").append(vanished.type() + "." + names.get(i));
        }
        names.forEach(name -> held.add(vanished.type() + "." + name));
        doubts.add(new Doubt(
                vanished.place(),
                vanished.id() + " is in no point list, and " + names.get(1) + " is read from where it was, or had its"
                        + " name; all of them stay as they are until you say. Under new names: 'check --bind" + renamed
                        + "'. Other points: 'check --bind" + notRenamed + "'"));
    }
}
