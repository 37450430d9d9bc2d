package burnerbridge.config.permit;

import burnerbridge.config.point.PointOrigin;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Role;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Predicate;

/** Makes the permits of a site, and tells of those that cannot be. */
public final class Permits {
    private final PermitPart part;
    private final List<LineDefinition> lines;
    private final RowFinder finder;
    private final GuardCheck guard;
    private final Problems problems;

    /**
     * @param owners all controllers and groups that are right
     * @param origins by type and point, where each row stands
     * @param isWhole whether all rows of a type are right, so that one that is not there is unknown
     */
    public Permits(
            PermitPart part,
            List<ControllerDefinition> owners,
            List<LineDefinition> lines,
            Map<Name, Map<Name, PointOrigin>> origins,
            Predicate<Name> isWhole,
            Problems problems) {
        this.part = part;
        this.lines = lines;
        this.finder = new RowFinder(part.owners(), owners, origins, isWhole);
        // Of a large site that permits nothing it would be much work for nothing.
        this.guard = new GuardCheck(part.entries().isEmpty() ? List.of() : owners);
        this.problems = problems;
    }

    /** Those that nothing is wrong with; each of the others is told of. */
    public List<WritePermit> make() {
        List<Made> made = new ArrayList<>();
        for (YamlMap map : part.entries()) {
            if (problems.isFull(map.place().file())) {
                break;
            }
            permit(map).ifPresent(made::add);
        }
        made.forEach(one -> warnOfLettingGo(one, made));
        return made.stream().map(Made::permit).toList();
    }

    private record Made(YamlMap map, PermitRow row, WritePermit permit) {
        private boolean beatsFor(PermitRow other) {
            return permit.beat().isPresent() && row.controller().equals(other.controller());
        }
    }

    /** What stands is written twice in the watchdog's time, where no heartbeat keeps it and its interval lets it be. */
    private static void warnOfLettingGo(Made made, List<Made> all) {
        Optional<Duration> watchdog = made.row.options().watchdog();
        Optional<Purpose.Asked> asked = made.permit.asked();
        if (watchdog.isEmpty()
                || asked.isEmpty()
                || asked.get().silence().isEmpty()
                || asked.get().interval().compareTo(watchdog.get()) < 0
                || all.stream().anyMatch(one -> one.beatsFor(made.row))) {
            return;
        }
        made.map.warning(
                PermitKeys.INTERVAL,
                "is no shorter than " + Durations.text(watchdog.get()) + ", types."
                        + made.row.controller().type().name() + "." + TypeReader.WATCHDOG
                        + ", and no heartbeat is permitted: the controller lets a demand go before it may be written"
                        + " again");
    }

    private Optional<Made> permit(YamlMap map) {
        map.allowOnly(PermitKeys.ALL, Set.of());
        Optional<PermitRow> row = finder.find(map);
        boolean sound = row.filter(r -> isPermittable(map, r)).isPresent();
        // How a row would have to be written that never can be is not told.
        Optional<PermitRow> writable = row.filter(r -> !r.controller().isGroup() && !Guard.isProtected(r.point()));
        OptionalInt function = FunctionKey.read(map, writable);
        boolean beats = beats(map, writable);
        Optional<Purpose> purpose = beats ? BeatKeys.read(map, writable) : AskedKeys.read(map, writable, part);
        Optional<Storage> storage = StorageKeys.read(map);
        Optional<String> reason = PermitKeys.reason(map);
        purpose.ifPresent(p -> storage.ifPresent(s -> warnOfWear(map, p, s)));
        if (!sound || function.isEmpty() || purpose.isEmpty() || storage.isEmpty() || reason.isEmpty()) {
            return Optional.empty();
        }
        WritePermit permit = new WritePermit(
                row.orElseThrow().id(), purpose.get(), function.getAsInt(), storage.get(), reason.get());
        return Optional.of(new Made(map, row.get(), permit));
    }

    private boolean isPermittable(YamlMap map, PermitRow row) {
        List<String> objections = new RowCheck(row, lines).objections();
        objections.forEach(why -> map.error(PermitKeys.POINT, why));
        // Of a row that its own role or table forbids, that alone is told.
        boolean guarded = !row.controller().isGroup() && !Guard.isProtected(row.point()) && row.isWritableTable();
        return (!guarded || guard.mayBeWritten(map, row)) && objections.isEmpty();
    }

    /** By the row's role; where that is not known, or can never be permitted, by what is said. */
    private static boolean beats(YamlMap map, Optional<PermitRow> row) {
        return row.map(r -> r.role() == Role.HEARTBEAT)
                .orElseGet(() -> map.has(PermitKeys.EVERY) || map.has(PermitKeys.PATTERN));
    }

    private static void warnOfWear(YamlMap map, Purpose purpose, Storage storage) {
        if (purpose instanceof Purpose.Asked asked) {
            WearCheck.warn(map, PermitKeys.INTERVAL, asked.interval(), storage);
        } else if (purpose instanceof Purpose.Beat beat) {
            WearCheck.warn(map, PermitKeys.EVERY, beat.every(), storage);
        }
    }
}
