package burnerbridge.config.point;

import burnerbridge.config.meaning.AlarmCell;
import burnerbridge.config.meaning.MeaningCell;
import burnerbridge.config.meaning.ObjectCell;
import burnerbridge.config.meaning.ObjectNameCell;
import burnerbridge.config.meaning.ObjectRule;
import burnerbridge.config.meaning.StatesCell;
import burnerbridge.config.meaning.UnitCells;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.register.AccessCell;
import burnerbridge.config.register.AddressCell;
import burnerbridge.config.register.ConsistencyCell;
import burnerbridge.config.register.FormatCell;
import burnerbridge.config.register.HeldNumbers;
import burnerbridge.config.register.LimitCells;
import burnerbridge.config.register.OnReadCell;
import burnerbridge.config.register.ScalingCells;
import burnerbridge.config.row.Language;
import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.Consistency;
import burnerbridge.site.Limits;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.unit.UnitSystem;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Makes a point definition of one row. */
final class PointRowReader {
    private static final BigDecimal SHARE_OF_SPAN = new BigDecimal("0.005");
    private static final BigDecimal LARGEST_CHANGE = new BigDecimal("1e12");
    private static final Duration SHORTEST_EVERY = Duration.ofMillis(100);
    private static final Duration LONGEST_EVERY = Duration.ofHours(24);
    private static final Duration LEAST_STALE_AFTER = Duration.ofSeconds(10);
    private static final Duration LONGEST_STALE_AFTER = Duration.ofDays(7);

    static final List<String> ROLES =
            Arrays.stream(Role.values()).map(Role::word).toList();

    private PointRowReader() {}

    /**
     * Empty where the row is wrong; then its problems are told.
     *
     * @param basicObjects whether the site wants only objects that the oldest clients know
     */
    static Optional<PointDefinition> read(
            PointRow row, TypeSettings type, ZoneId zone, UnitSystem system, Language language, boolean basicObjects) {
        Optional<Name> name = name(row);
        Optional<RegisterTable> table = table(row);
        Optional<PointFormat> format = table.flatMap(t -> FormatCell.read(row, t, type, zone));
        Optional<AddressCell> address = table.flatMap(t -> AddressCell.read(row, t, format, type));
        Optional<Role> role = role(row);
        UnitCells units = UnitCells.read(row, system);
        Scaling written = ScalingCells.read(row);
        Scaling scaling = written.shownBy(units.conversion());
        Limits ofController = LimitCells.read(row);
        Limits limits = ofController.shownBy(units.conversion());
        States states = StatesCell.read(row, format, type.causes().states());
        Optional<BigDecimal> change = row.decimal("change");
        format.ifPresent(f -> checkTogether(row, f, written, states, change, limits));
        boolean clears = OnReadCell.isCleared(row);
        boolean writeOnly = role.filter(r -> AccessCell.isWriteOnly(row, r)).isPresent();
        Duration wanted = role.filter(r -> !writeOnly).map(r -> every(row, r)).orElse(Duration.ZERO);
        Duration every = OnReadCell.every(row, clears, wanted, type);
        Duration staleAfter = staleAfter(row, every);
        Optional<Name> group = optionalName(row, "read-group");
        Optional<Name> scaleBy = optionalName(row, "scale-by");
        Optional<ObjectKind> object = format.isPresent() && role.isPresent()
                ? ObjectCell.read(
                        row,
                        new ObjectRule(format.get(), states, role.get(), scaling, scaleBy.isPresent(), basicObjects),
                        !every.isZero())
                : Optional.empty();
        Optional<String> objectName = ObjectNameCell.read(row, object);
        format.filter(f -> scaleBy.isPresent() && !(f.isWhole() && states.isEmpty()))
                .ifPresent(f -> row.error("scale-by", "is for whole numbers without states"));
        boolean twice =
                format.isPresent() && address.isPresent() && ConsistencyCell.isTwice(row, format.get(), address.get());
        Optional<Meaning> meaning = format.isPresent() && role.isPresent()
                ? MeaningCell.read(row, format.get(), states, role.get(), units)
                : Optional.empty();
        boolean isRead = !every.isZero();
        Optional<AlarmDefinition> alarm = format.flatMap(
                f -> AlarmCell.read(row, new AlarmCell.Facts(f, states, meaning, ofController, isRead), units));
        if (row.isFaulty() || name.isEmpty() || address.isEmpty() || format.isEmpty() || role.isEmpty()) {
            return Optional.empty();
        }
        return object.map(kind -> new PointDefinition(
                name.get(),
                language.text(row, "description"),
                table.orElseThrow(),
                address.get().wire(),
                row.text("address"),
                format.get(),
                scaling,
                units.shown(),
                role.get(),
                every,
                staleAfter,
                states,
                change.map(units.conversion()::applyToDifference)
                        .orElse(scaleBy.isPresent() ? BigDecimal.ZERO : defaultChange(format.get(), scaling, limits)),
                kind,
                limits,
                new Consistency(twice, address.get().lowerWord(), group, scaleBy, clears),
                units.basis(),
                new PointOptions(meaning, Optional.empty(), objectName, writeOnly, alarm)));
    }

    private static Optional<Name> name(PointRow row) {
        String text = row.required("name");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String objection = Name.objectionTo(text);
        if (!objection.isEmpty()) {
            row.error("name", objection);
            return Optional.empty();
        }
        return Optional.of(new Name(text));
    }

    private static Optional<Name> optionalName(PointRow row, String column) {
        if (!row.has(column)) {
            return Optional.empty();
        }
        String objection = Name.objectionTo(row.text(column));
        if (!objection.isEmpty()) {
            row.error(column, objection);
            return Optional.empty();
        }
        return Optional.of(new Name(row.text(column)));
    }

    static Optional<RegisterTable> table(PointRow row) {
        row.required("table");
        List<String> words =
                Arrays.stream(RegisterTable.values()).map(RegisterTable::word).toList();
        return row.word("table", words).map(word -> RegisterTable.values()[words.indexOf(word)]);
    }

    private static Optional<Role> role(PointRow row) {
        row.required("role");
        return row.word("role", ROLES).map(word -> Role.values()[ROLES.indexOf(word)]);
    }

    private static void checkTogether(
            PointRow row,
            PointFormat format,
            Scaling scaling,
            States states,
            Optional<BigDecimal> change,
            Limits limits) {
        boolean number = format.isWhole() || format instanceof PointFormat.Floating;
        boolean plainNumber = number && states.isEmpty();
        String what = states.isEmpty() ? "'" + format.word() + "'" : "a point with states";
        if (!scaling.isNone() && !plainNumber) {
            row.error(firstOf(row, "scale", "offset", "raw-low"), what + " is not scaled");
        }
        if (!plainNumber) {
            UnitCells.refuseAll(row, what);
        }
        if (limits.valid().isPresent() && !plainNumber) {
            row.error("valid", what + " has no valid range");
        }
        if (!limits.noValue().isEmpty() && !number) {
            row.error("no-value", "'" + format.word() + "' has no such pattern");
        }
        if (change.isPresent()
                && (!plainNumber || change.get().signum() < 0 || change.get().compareTo(LARGEST_CHANGE) > 0)) {
            row.error("change", "must be 0 to 1e12, for numbers only (was '" + row.text("change") + "')");
        }
        checkStates(row, format, states);
    }

    private static void checkStates(PointRow row, PointFormat format, States states) {
        if (format.isBit() && states.texts().keySet().stream().anyMatch(n -> n != 0 && n != 1)) {
            row.error("states", "a bit has states 0 and 1 only (was '" + row.text("states") + "')");
        }
        HeldNumbers held = new HeldNumbers(format);
        states.texts().keySet().stream()
                .filter(number -> format.isWhole() && !held.contains(number))
                .forEach(number -> row.error(
                        "states",
                        "a " + format.word() + " holds " + held.least() + " to " + held.most() + " (was " + number
                                + ")"));
        if (!states.isEmpty() && !format.isBit() && !format.isWhole()) {
            row.error("states", "a " + format.word() + " has no states");
        }
    }

    private static String firstOf(PointRow row, String... columns) {
        return Arrays.stream(columns).filter(row::has).findFirst().orElse(columns[0]);
    }

    private static Duration every(PointRow row, Role role) {
        Optional<Duration> written = row.duration("every", SHORTEST_EVERY, LONGEST_EVERY);
        if (role.defaultEvery().isEmpty()) {
            if (row.has("every")) {
                row.error("every", "a point of role " + role.word() + " is not polled");
            }
            return Duration.ZERO;
        }
        return written.or(role::defaultEvery).orElseThrow();
    }

    private static Duration staleAfter(PointRow row, Duration every) {
        Duration usual =
                every.multipliedBy(3).compareTo(LEAST_STALE_AFTER) > 0 ? every.multipliedBy(3) : LEAST_STALE_AFTER;
        Duration staleAfter = row.duration("stale-after", Duration.ofSeconds(2), LONGEST_STALE_AFTER)
                .orElse(usual);
        if (staleAfter.compareTo(every) <= 0) {
            row.error(
                    "stale-after",
                    "must be longer than the interval of " + Durations.text(every) + " (was '" + row.text("stale-after")
                            + "')");
        }
        return staleAfter;
    }

    /** The larger of one step of a whole raw value and 0.5 % of the valid span. */
    private static BigDecimal defaultChange(PointFormat format, Scaling scaling, Limits limits) {
        BigDecimal step = format.isWhole() ? scaling.step() : BigDecimal.ZERO;
        BigDecimal share = limits.valid()
                .map(range -> range.high().subtract(range.low()).multiply(SHARE_OF_SPAN))
                .orElse(BigDecimal.ZERO);
        return step.max(share);
    }
}
