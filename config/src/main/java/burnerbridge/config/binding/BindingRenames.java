package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingRow.Gone;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/** Gives rows the new names that a person has stated, all at once, so that names can be exchanged. */
final class BindingRenames {
    private final Map<Name, ControllerType> types;
    private final List<BindingRow> rows;
    private final List<BindingStep> steps;
    private final List<String> refused;

    private record Point(Name type, Name point) {
        @Override
        public String toString() {
            return type + "." + point;
        }
    }

    /** @param rows changed in place */
    BindingRenames(
            Map<Name, ControllerType> types, List<BindingRow> rows, List<BindingStep> steps, List<String> refused) {
        this.types = types;
        this.rows = rows;
        this.steps = steps;
        this.refused = refused;
    }

    void apply(Map<String, String> renamed) {
        Map<Name, Name> typeNames = new HashMap<>();
        Map<Point, Point> pointNames = new HashMap<>();
        renamed.forEach((from, to) -> {
            if (from.indexOf('.') < 0) {
                type(from, to).ifPresent(name -> typeNames.put(new Name(from), name));
            }
        });
        renameTypes(typeNames);
        renamed.forEach((from, to) -> {
            if (from.indexOf('.') >= 0) {
                point(from, to, typeNames).ifPresent(pair -> pointNames.put(pair.get(0), pair.get(1)));
            }
        });
        renamePoints(pointNames);
    }

    private Optional<Name> type(String from, String to) {
        String told = "--renamed " + from + "=" + to + ": ";
        if (rows.stream().noneMatch(row -> row.type().text().equals(from))) {
            refused.add(told + "no binding is of type " + from);
        } else if (types.keySet().stream().anyMatch(name -> name.text().equals(from))) {
            refused.add(told + "type " + from + " is in site.yaml still");
        } else if (types.keySet().stream().noneMatch(name -> name.text().equals(to))) {
            refused.add(told + "type " + to + " is not in site.yaml");
        } else if (rows.stream().anyMatch(row -> row.type().text().equals(to))) {
            refused.add(told + "type " + to + " has bindings of its own");
        } else {
            return Optional.of(new Name(to));
        }
        return Optional.empty();
    }

    private void renameTypes(Map<Name, Name> names) {
        rows.replaceAll(row -> {
            Name name = names.get(row.type());
            return name == null ? row : told(row, row.named(name, row.point()));
        });
    }

    private BindingRow told(BindingRow before, BindingRow after) {
        steps.add(BindingStep.renamed(before, after));
        return after;
    }

    /** The two names of a point, where both are well-formed and of one type. */
    private Optional<List<Point>> point(String from, String to, Map<Name, Name> typeNames) {
        Optional<Point> old = parsed(from);
        Optional<Point> now = parsed(to.indexOf('.') < 0 ? from.substring(0, from.indexOf('.') + 1) + to : to);
        if (old.isEmpty() || now.isEmpty()) {
            refused.add("--renamed " + from + "=" + to + ": must be type.point=type.point, or type=type");
            return Optional.empty();
        }
        Name type = typeNames.getOrDefault(old.get().type(), old.get().type());
        Name nowType = typeNames.getOrDefault(now.get().type(), now.get().type());
        if (!type.equals(nowType)) {
            refused.add("--renamed " + from + "=" + to + ": a point stays with its type");
            return Optional.empty();
        }
        return Optional.of(List.of(
                new Point(type, old.get().point()), new Point(type, now.get().point())));
    }

    private static Optional<Point> parsed(String text) {
        String type = text.substring(0, text.indexOf('.'));
        String point = text.substring(text.indexOf('.') + 1);
        boolean sound =
                Name.objectionTo(type).isEmpty() && Name.objectionTo(point).isEmpty();
        return sound ? Optional.of(new Point(new Name(type), new Name(point))) : Optional.empty();
    }

    private void renamePoints(Map<Point, Point> stated) {
        Map<Point, Point> names = new HashMap<>(stated);
        // A refusal may pull the ground from under another one.
        int before;
        do {
            before = names.size();
            names.entrySet().removeIf(entry -> isRefused(entry.getKey(), entry.getValue(), names));
        } while (names.size() < before);
        Set<Point> targets = new HashSet<>(names.values());
        rows.replaceAll(row -> {
            Point point = new Point(row.type(), row.point());
            if (row.gone() == Gone.FOR_GOOD) {
                return row;
            }
            if (names.containsKey(point)) {
                return told(
                        row,
                        row.named(
                                row.type(),
                                Objects.requireNonNull(names.get(point)).point()));
            }
            return targets.contains(point) ? replaced(row) : row;
        });
    }

    /** A row whose name goes to another one by a person's word; its object is nobody's from now on. */
    private BindingRow replaced(BindingRow row) {
        if (row.isLive()) {
            steps.add(BindingStep.gone(row));
        }
        return row.withGone(Gone.FOR_GOOD);
    }

    private boolean isRefused(Point from, Point to, Map<Point, Point> names) {
        List<String> objections = new ArrayList<>();
        if (rows.stream().noneMatch(row -> row.isOf(from.type(), from.point()) && row.gone() != Gone.FOR_GOOD)) {
            objections.add(from + " has no binding");
        }
        if (!isListed(to)) {
            objections.add(to + " is in no point list");
        }
        if (isListed(from) && !names.containsValue(from)) {
            objections.add(from + " is in the point list still");
        }
        if (names.values().stream().filter(to::equals).count() > 1) {
            objections.add(to + " cannot be two points");
        }
        objections.forEach(objection -> refused.add("--renamed " + from + "=" + to + ": " + objection));
        return !objections.isEmpty();
    }

    private boolean isListed(Point point) {
        ControllerType type = types.get(point.type());
        return type != null
                && type.points().stream().anyMatch(listed -> listed.name().equals(point.point()));
    }
}
