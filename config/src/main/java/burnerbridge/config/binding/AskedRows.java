package burnerbridge.config.binding;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.RequestObjects;
import burnerbridge.site.States;
import burnerbridge.site.permit.WritePermit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What permits add to be bound: the objects by which a point is asked for, as if they were rows of its type's list. So they
 * keep their instances as points do, and a permit that is taken back leaves a tombstone.
 */
public final class AskedRows {
    private final Map<Name, List<PointDefinition>> rows = new LinkedHashMap<>();
    private final Map<Name, Set<Name>> names = new LinkedHashMap<>();

    private AskedRows(Map<Name, ControllerType> types) {
        types.forEach((name, type) -> {
            rows.put(name, new ArrayList<>(type.points()));
            names.put(
                    name,
                    new HashSet<>(
                            type.points().stream().map(PointDefinition::name).toList()));
        });
    }

    /** The types with a row more for each such object; a row of the list that has its name goes before it. */
    public static Map<Name, ControllerType> with(
            Map<Name, ControllerType> types, List<ControllerDefinition> owners, List<WritePermit> permits) {
        if (permits.isEmpty()) {
            return types;
        }
        AskedRows asked = new AskedRows(types);
        permits.forEach(permit -> owners.stream()
                .filter(owner -> owner.name().equals(permit.point().controller()))
                .findFirst()
                .ifPresent(owner -> asked.add(types, owner.type().name(), permit)));
        Map<Name, ControllerType> with = new LinkedHashMap<>();
        types.forEach((name, type) -> with.put(
                name,
                new ControllerType(name, asked.rows.getOrDefault(name, type.points()), type.rules(), type.options())));
        return with;
    }

    /** By the type's own row, since that of a controller may have other addresses. */
    private void add(Map<Name, ControllerType> types, Name type, WritePermit permit) {
        row(types, type, permit.point())
                .ifPresent(point -> RequestObjects.of(point, permit).ifPresent(objects -> {
                    add(type, point, objects.request(), objects.kind());
                    objects.lease().ifPresent(lease -> add(type, point, lease, ObjectKind.ANALOG_VALUE));
                }));
    }

    private static Optional<PointDefinition> row(Map<Name, ControllerType> types, Name type, PointId id) {
        return Optional.ofNullable(types.get(type)).stream()
                .flatMap(found -> found.points().stream())
                .filter(point -> point.name().equals(id.point()))
                .findFirst();
    }

    private void add(Name type, PointDefinition point, Name name, ObjectKind kind) {
        Set<Name> taken = names.getOrDefault(type, Set.of());
        List<PointDefinition> ofType = rows.get(type);
        if (ofType != null && taken.add(name)) {
            ofType.add(boundAs(point, name, kind));
        }
    }

    /** Without states: their numbers are those of the object that shows the point. */
    private static PointDefinition boundAs(PointDefinition point, Name name, ObjectKind kind) {
        return new PointDefinition(
                name,
                point.description(),
                point.table(),
                point.wireAddress(),
                point.manualAddress(),
                point.format(),
                point.scaling(),
                point.unit(),
                point.role(),
                point.every(),
                point.staleAfter(),
                States.NONE,
                point.change(),
                kind);
    }
}
