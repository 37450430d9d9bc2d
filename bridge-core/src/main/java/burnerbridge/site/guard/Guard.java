package burnerbridge.site.guard;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Meaning;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.TypeOptions;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * All of one unit that can never be written: every row whose role cannot be permitted or that chooses the fuel, every
 * protected range and every reserved one, of all controllers and types that live in the unit. Where it is not stated for
 * all of them that their tables are separate, tables of one width are one, and coils may lie anywhere in the registers.
 * Immutable.
 */
public final class Guard {
    private final boolean separate;
    private final List<Protected> entries;

    private Guard(boolean separate, List<Protected> entries) {
        this.separate = separate;
        this.entries = List.copyOf(entries);
    }

    /** The guards of all units of controllers that are on lines. */
    public static Map<PhysicalUnit, Guard> of(Collection<ControllerDefinition> controllers) {
        Map<PhysicalUnit, List<ControllerDefinition>> units = new LinkedHashMap<>();
        controllers.stream()
                .filter(controller -> !controller.isGroup())
                .forEach(controller -> units.computeIfAbsent(PhysicalUnit.of(controller), u -> new ArrayList<>())
                        .add(controller));
        Map<PhysicalUnit, Guard> guards = new LinkedHashMap<>();
        units.forEach((unit, inIt) -> guards.put(unit, ofUnit(inIt)));
        return guards;
    }

    /** @param controllers all that live in one unit */
    public static Guard ofUnit(List<ControllerDefinition> controllers) {
        return new Guard(
                controllers.stream().allMatch(c -> c.type().options().separateTables()),
                controllers.stream().flatMap(Guard::entriesOf).toList());
    }

    private static Stream<Protected> entriesOf(ControllerDefinition controller) {
        ControllerType type = controller.type();
        Stream<Protected> rows = type.points().stream()
                .filter(point -> isProtected(point) && !point.isDerived())
                .flatMap(point -> ofRow(controller, point));
        Stream<Protected> stated = type.options().guarded().stream().map(range -> ofRange(controller, range));
        Stream<Protected> reserved = type.rules().reserved().stream()
                .map(range ->
                        new Protected(Place.whole(range), range + " of " + controller.name() + ", which is reserved"));
        return Stream.of(rows, stated, reserved).flatMap(all -> all);
    }

    /** Whether nothing may ever write what a row holds: by its role, or since it chooses what is burnt. */
    public static boolean isProtected(PointDefinition point) {
        return !point.role().mayBePermitted() || selectsFuel(point);
    }

    /** Whether a row holds the fuel; that is chosen at the burner, whatever the role of the row. */
    public static boolean selectsFuel(PointDefinition point) {
        return point.options().meaning().filter(Meaning.FUEL::equals).isPresent();
    }

    private static Stream<Protected> ofRow(ControllerDefinition controller, PointDefinition point) {
        String why = point.name() + " of " + controller.name() + " at " + point.addressText()
                + (point.role().mayBePermitted()
                        ? ", which means " + Meaning.FUEL.word()
                        : ", whose role is " + point.role().word());
        return Place.readBy(point).stream().map(place -> new Protected(place, why));
    }

    private static Protected ofRange(ControllerDefinition controller, TypeOptions.Stated stated) {
        return new Protected(
                Place.whole(stated.range()),
                "the protected range " + stated + " of type "
                        + controller.type().name());
    }

    /** The same with more that is protected. */
    public Guard with(Collection<Protected> more) {
        return new Guard(
                separate, Stream.concat(entries.stream(), more.stream()).toList());
    }

    /** Whether it was stated of all types in the unit that their tables are separate. */
    public boolean tablesAreSeparate() {
        return separate;
    }

    public List<Protected> entries() {
        return entries;
    }

    /** The first that forbids a write to some places; empty where nothing does. */
    public Optional<Protected> against(Collection<Place> written) {
        return entries.stream()
                .filter(entry -> written.stream().anyMatch(place -> mayBeOne(place, entry.place())))
                .findFirst();
    }

    /** The same of a run of addresses. */
    public Optional<Protected> against(AddressRange written) {
        return against(List.of(Place.whole(written)));
    }

    /** Whether two writes may change one bit, as far as it is stated how the tables of the unit lie. */
    public boolean mayMeet(Collection<Place> one, Collection<Place> other) {
        return one.stream().anyMatch(place -> other.stream().anyMatch(theirs -> mayBeOne(place, theirs)));
    }

    private boolean mayBeOne(Place one, Place other) {
        if (separate) {
            return one.range().table() == other.range().table() && one.meets(other);
        }
        // Where a coil lies in the registers, if it does, nobody has said.
        return one.isOfBits() != other.isOfBits() || one.meets(other);
    }
}
