package burnerbridge.config.permit;

import burnerbridge.config.point.PointOrigin;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.guard.Guard;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** Finds the row that a permit names. */
final class RowFinder {
    private static final String FORM = "must be a controller and one of its points, like boiler-1.load-demand";

    private final Set<String> names;
    private final List<ControllerDefinition> owners;
    private final Map<Name, Map<Name, PointOrigin>> origins;
    private final Predicate<Name> isWhole;

    /**
     * @param names of all controllers and groups, also of those that are wrong
     * @param owners those that are right
     * @param origins by type and point, where each row stands; none of a group
     * @param isWhole whether all rows of a type are right
     */
    RowFinder(
            Set<String> names,
            List<ControllerDefinition> owners,
            Map<Name, Map<Name, PointOrigin>> origins,
            Predicate<Name> isWhole) {
        this.names = names;
        this.owners = owners;
        this.origins = origins;
        this.isWhole = isWhole;
    }

    /** Empty where there is no such row; that is told here, or where the row, the controller or the group is told of. */
    Optional<PermitRow> find(YamlMap map) {
        Optional<String> text = map.requiredText(PermitKeys.POINT, "what may be written, like boiler-1.load-demand");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String[] parts = text.get().split("\\.", -1);
        if (parts.length != 2
                || !Name.objectionTo(parts[0]).isEmpty()
                || !Name.objectionTo(parts[1]).isEmpty()) {
            map.error(PermitKeys.POINT, FORM + " (was '" + text.get() + "')");
            return Optional.empty();
        }
        if (!names.contains(parts[0])) {
            map.error(
                    PermitKeys.POINT,
                    FORM + "; there is no controller '" + parts[0] + "' (there are: " + String.join(", ", names) + ")"
                            + NearestWord.hint(parts[0], names));
            return Optional.empty();
        }
        return owners.stream()
                .filter(owner -> owner.name().text().equals(parts[0]))
                .findFirst()
                .flatMap(owner -> row(map, owner, new Name(parts[1])));
    }

    private Optional<PermitRow> row(YamlMap map, ControllerDefinition owner, Name name) {
        Optional<PointDefinition> point = owner.type().points().stream()
                .filter(one -> one.name().equals(name))
                .findFirst();
        if (point.isEmpty() && (owner.isGroup() || isWhole.test(owner.type().name()))) {
            tellUnknown(map, owner, name);
        }
        return point.map(found -> new PermitRow(owner, found, origin(owner, found)));
    }

    private PointOrigin origin(ControllerDefinition owner, PointDefinition point) {
        PointOrigin origin = origins.getOrDefault(owner.type().name(), Map.of()).get(point.name());
        return origin == null ? new PointOrigin("", 0, "", "") : origin;
    }

    private static void tellUnknown(YamlMap map, ControllerDefinition owner, Name name) {
        List<String> possible = owner.type().points().stream()
                .filter(point -> !owner.isGroup() && !Guard.isProtected(point) && PermitRow.isWritableTable(point))
                .map(point -> point.name().text())
                .toList();
        map.error(
                PermitKeys.POINT,
                owner.name() + " has no point '" + name + "' ("
                        + (possible.isEmpty()
                                ? "and none that can be permitted"
                                : "of those that can be permitted it has " + String.join(", ", possible))
                        + ")" + NearestWord.hint(name.text(), possible));
    }
}
