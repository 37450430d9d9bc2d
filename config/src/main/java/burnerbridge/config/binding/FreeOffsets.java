package burnerbridge.config.binding;

import burnerbridge.config.file.SiteFile.Based;
import burnerbridge.config.file.SiteFileReader;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Finds offsets that no row has or had, and whose instances no other controller has.
 *
 * <p>Types that share at least half of their names are kin: one was probably copied from the other. Kin give
 * one name one offset, so that a controller that changes from one to the other keeps its instances, and go on
 * counting beyond each other, so that none of its other instances gets another point.
 */
final class FreeOffsets {
    private final Map<Name, Set<Name>> kin = new HashMap<>();
    private final Map<Name, List<Integer>> bases;
    private final Map<Name, Set<String>> taken = new HashMap<>();
    private final Map<Name, Integer> highest = new HashMap<>();
    private final Map<String, Integer> byName = new HashMap<>();
    private final Map<ObjectKind, Set<Integer>> instances = new HashMap<>();

    FreeOffsets(Collection<ControllerType> types, List<Based> controllers, List<BindingRow> rows) {
        bases = controllers.stream()
                .collect(Collectors.groupingBy(
                        Based::type, Collectors.mapping(Based::instanceBase, Collectors.toList())));
        // Each controller has an object of the bridge's own at its base, which tells whether it answers.
        instances.put(
                ObjectKind.BINARY_INPUT,
                controllers.stream().map(Based::instanceBase).collect(Collectors.toCollection(HashSet::new)));
        Map<Name, Set<Name>> names = new HashMap<>();
        types.forEach(type -> names.put(
                type.name(), type.points().stream().map(PointDefinition::name).collect(Collectors.toSet())));
        names.forEach((type, own) -> kin.put(
                type,
                names.keySet().stream()
                        .filter(other -> !other.equals(type) && areKin(own, names.getOrDefault(other, Set.of())))
                        .collect(Collectors.toSet())));
        rows.forEach(this::take);
    }

    private static boolean areKin(Set<Name> one, Set<Name> other) {
        long shared = one.stream().filter(other::contains).count();
        return shared > 0 && shared * 2 >= Math.min(one.size(), other.size());
    }

    /** Counts a row as there. */
    void take(BindingRow row) {
        taken.computeIfAbsent(row.type(), type -> new HashSet<>()).add(row.object() + "/" + row.offset());
        highest.merge(row.type(), row.offset(), Math::max);
        if (row.isLive()) {
            byName.put(key(row.type(), row.point(), row.object()), row.offset());
        }
        Set<Integer> used = instances.computeIfAbsent(row.object(), kind -> new HashSet<>());
        bases.getOrDefault(row.type(), List.of()).forEach(base -> used.add(base + row.offset()));
    }

    private static String key(Name type, Name point, ObjectKind kind) {
        return type + "." + point + "/" + kind;
    }

    boolean isFree(Name type, ObjectKind kind, int offset) {
        Set<Integer> used = instances.getOrDefault(kind, Set.of());
        return !taken.getOrDefault(type, Set.of()).contains(kind + "/" + offset)
                && bases.getOrDefault(type, List.of()).stream()
                        .allMatch(
                                base -> base + offset <= SiteFileReader.LAST_INSTANCE && !used.contains(base + offset));
    }

    /** An offset for a point of a kind that it had no object of before; empty where none is left. */
    Optional<Integer> find(Name type, Name point, ObjectKind kind) {
        Set<Name> kinOfType = kin.getOrDefault(type, Set.of());
        Optional<Integer> ofKin = kinOfType.stream()
                .sorted()
                .map(other -> byName.get(key(other, point, kind)))
                .filter(offset -> offset != null && isUnused(type, offset) && isFree(type, kind, offset))
                .findFirst();
        return ofKin.isPresent() ? ofKin : next(type, kinOfType, kind);
    }

    private boolean isUnused(Name type, int offset) {
        Set<String> own = taken.getOrDefault(type, Set.of());
        return Arrays.stream(ObjectKind.values()).noneMatch(kind -> own.contains(kind + "/" + offset));
    }

    private Optional<Integer> next(Name type, Set<Name> kinOfType, ObjectKind kind) {
        int offset = highest.getOrDefault(type, 0);
        for (Name other : kinOfType) {
            offset = Math.max(offset, highest.getOrDefault(other, 0));
        }
        do {
            offset++;
        } while (offset <= SiteFileReader.LAST_INSTANCE && !isFree(type, kind, offset));
        return offset <= SiteFileReader.LAST_INSTANCE ? Optional.of(offset) : Optional.empty();
    }
}
