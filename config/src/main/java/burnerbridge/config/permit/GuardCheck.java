package burnerbridge.config.permit;

import burnerbridge.config.type.TypeReader;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.guard.PhysicalUnit;
import burnerbridge.site.guard.Place;
import burnerbridge.site.guard.Protected;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** Holds what permits would write against all that is protected in the unit, and against each other. */
final class GuardCheck {
    private final Map<PhysicalUnit, Guard> guards;
    private final List<Seen> before = new ArrayList<>();

    private record Seen(PermitRow row, PhysicalUnit unit, List<Place> written, int line) {}

    /** @param controllers all that are right, of all units */
    GuardCheck(Collection<ControllerDefinition> controllers) {
        this.guards = Guard.of(controllers);
    }

    /** Whether nothing forbids it; else it is told which row and address does. */
    boolean mayBeWritten(YamlMap map, PermitRow row) {
        PhysicalUnit unit = PhysicalUnit.of(row.controller());
        Guard guard = Objects.requireNonNull(guards.get(unit));
        Seen seen =
                new Seen(row, unit, Place.writtenBy(row.point()), map.place().line());
        Optional<Protected> forbidding = guard.against(seen.written());
        forbidding.ifPresent(what -> map.error(PermitKeys.POINT, forbidden(row, unit, guard, what)));
        Optional<Seen> other = before.stream()
                .filter(one -> one.unit().equals(unit) && guard.mayMeet(one.written(), seen.written()))
                .findFirst();
        other.ifPresent(one -> map.error(PermitKeys.POINT, twice(row, unit, guard, one)));
        before.add(seen);
        return forbidding.isEmpty() && other.isEmpty();
    }

    private static String forbidden(PermitRow row, PhysicalUnit unit, Guard guard, Protected forbidding) {
        return row.text() + " can never be written: a write could change " + forbidding.why() + ofBits(row)
                + ofTables(row, unit, guard, forbidding.place().range().table());
    }

    private static String ofBits(PermitRow row) {
        return row.isPartOfRegister() ? "; a write counts for all bits of its register" : "";
    }

    /** Why a place of another table counts. */
    private static String ofTables(PermitRow row, PhysicalUnit unit, Guard guard, RegisterTable other) {
        return row.point().table() == other || guard.tablesAreSeparate()
                ? ""
                : "; without " + TypeReader.TABLES + ": separate of every type in " + unit
                        + ", all tables count as one";
    }

    private static String twice(PermitRow row, PhysicalUnit unit, Guard guard, Seen other) {
        return other.row().id().equals(row.id())
                ? row.id() + " has its permit in line " + other.line() + " already"
                : row.text() + " could change what the permit of line " + other.line() + " writes, "
                        + other.row().text() + ", and one place has one permit" + ofBits(row)
                        + ofTables(row, unit, guard, other.row().point().table());
    }
}
