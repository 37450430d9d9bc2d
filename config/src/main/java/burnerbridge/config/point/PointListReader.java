package burnerbridge.config.point;

import burnerbridge.config.csv.CsvTable;
import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.meaning.AlarmCell;
import burnerbridge.config.meaning.MeaningCell;
import burnerbridge.config.meaning.ObjectNameCell;
import burnerbridge.config.meaning.StatesCell;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.problem.SimilarNames;
import burnerbridge.config.register.AccessCell;
import burnerbridge.config.register.OnReadCell;
import burnerbridge.config.row.Language;
import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Meaning;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.unit.UnitSystem;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the point list of a type, once. */
public final class PointListReader {
    public static final List<String> COLUMNS = List.of(
            "name",
            "description",
            "table",
            "address",
            "format",
            "order",
            "scale",
            "offset",
            "raw-low",
            "raw-high",
            "low",
            "high",
            "scale-by",
            "read-group",
            "verify",
            "on-read",
            "no-value",
            "valid",
            "unit",
            "show-unit",
            "basis",
            "role",
            MeaningCell.COLUMN,
            "every",
            "stale-after",
            ConditionCheck.COLUMN,
            "states",
            "change",
            AlarmCell.COLUMN,
            "object",
            ObjectNameCell.COLUMN,
            AccessCell.COLUMN,
            "source");

    private static final List<String> REQUIRED = List.of("name", "table", "address", "format", "role");

    private final TypeSettings type;
    private final ZoneId zone;
    private final UnitSystem units;
    private final Language language;
    private final boolean basicObjects;
    private final Problems problems;
    private final Map<Name, PointRow> byName = new HashMap<>();
    private final List<ReservedRow> reserved = new ArrayList<>();
    /** The names of the rows that a read clears. */
    private final Set<String> cleared = new TreeSet<>();
    /** Every name as written, also of rows that are wrong. */
    private final Set<String> written = new HashSet<>();

    /**
     * @param zone the site's, for formats that count from a moment
     * @param units what is shown where a row says nothing else
     * @param language in which descriptions are shown
     */
    PointListReader(
            TypeSettings type,
            ZoneId zone,
            UnitSystem units,
            Language language,
            boolean basicObjects,
            Problems problems) {
        this.language = language;
        this.basicObjects = basicObjects;
        this.units = units;
        this.zone = zone;
        this.type = type;
        this.problems = problems;
    }

    /** The type with the points of the list, without the rows that are wrong. */
    ControllerType read(Path folder) {
        List<PointDefinition> points = points(folder);
        return new ControllerType(type.name(), points, rules(), type.options());
    }

    /** Where a cell of a point that was read stands. */
    Place place(Name point, String column) {
        PointRow row = byName.get(point);
        return row == null ? Place.wholeFile(type.points()) : row.place(column);
    }

    /** Where the points of the list stand, after {@link #read}. */
    Map<Name, PointOrigin> origins() {
        Map<Name, PointOrigin> origins = new HashMap<>();
        byName.forEach((name, row) -> origins.put(
                name, new PointOrigin(type.points(), row.place("name").line(), row.text("unit"), row.text("source"))));
        return origins;
    }

    private ReadRules rules() {
        return type.rules()
                .withReserved(reserved.stream().map(ReservedRow::range).toList());
    }

    private List<PointDefinition> points(Path folder) {
        Optional<List<List<Cell>>> rows = CsvTable.read(folder, type.points(), problems);
        if (rows.isEmpty()) {
            return List.of();
        }
        if (rows.get().size() < 2) {
            problems.error(Place.wholeFile(type.points()), "must hold a header and at least one point");
            return List.of();
        }
        List<Cell> header = rows.get().get(0);
        language.check(header, problems);
        return checkHeader(header)
                ? points(header, rows.get().subList(1, rows.get().size()))
                : List.of();
    }

    private boolean checkHeader(List<Cell> header) {
        Set<String> seen = new HashSet<>();
        boolean sound = true;
        for (Cell cell : header) {
            if (cell.text().isEmpty()) {
                continue;
            }
            boolean known = COLUMNS.contains(cell.text()) || isIgnored(cell.text());
            if (!known) {
                problems.error(cell.place(), unknownColumn(cell.text()));
            } else if (!seen.add(cell.text()) && !cell.text().startsWith("note-")) {
                problems.error(cell.place(), "column '" + cell.text() + "' stands here twice");
                sound = false;
            }
        }
        for (String column : REQUIRED) {
            if (!seen.contains(column)) {
                problems.error(header.get(0).place(), "column '" + column + "' is missing");
                sound = false;
            }
        }
        return sound;
    }

    private static boolean isIgnored(String column) {
        return column.startsWith("note-") || Language.isColumn(column);
    }

    private static String unknownColumn(String column) {
        return "column '" + column + "' is not known (known: " + String.join(", ", COLUMNS)
                + ", text.xx for descriptions in another language, and note-… for notes of your own)"
                + NearestWord.hint(column, COLUMNS);
    }

    private List<PointDefinition> points(List<Cell> header, List<List<Cell>> rows) {
        List<PointDefinition> points = new ArrayList<>();
        for (List<Cell> cells : rows) {
            if (problems.isFull(type.points())) {
                break;
            }
            Place place = new Place(type.points(), cells.get(0).place().line(), 0);
            refuseNamelessCells(header, cells);
            PointRow row = new PointRow(CsvTable.byColumn(header, cells, problems), place, problems);
            if (ReservedRow.isOne(row)) {
                ReservedRow.read(row, type).ifPresent(reserved::add);
            } else {
                written.add(row.text("name"));
                point(row).ifPresent(points::add);
            }
        }
        checkReadClearing();
        if (points.isEmpty() && !problems.hasErrorsIn(type.points())) {
            problems.error(Place.wholeFile(type.points()), "must hold at least one point, not reserved addresses only");
        }
        Map<Name, Place> names = new HashMap<>();
        byName.forEach((name, row) -> names.put(name, row.place("name")));
        List<PointDefinition> grouped = new GroupCheck(points, names, rules(), problems).run();
        new ReadCheck(type, grouped, byName, reserved).run();
        new OverlapCheck(grouped, byName, rules()).run();
        new TypeCheck(type, grouped, byName, reserved, problems).run(written);
        NumberingDoubt.check(type, grouped, byName);
        SimilarNames similar = new SimilarNames("", problems);
        grouped.forEach(
                point -> similar.add(point.name(), names.getOrDefault(point.name(), Place.wholeFile(type.points()))));
        checkMeanings(grouped);
        checkCauses();
        noteAlarms(grouped);
        return new ConditionCheck(grouped, byName, written).run();
    }

    private void checkCauses() {
        boolean used = byName.values().stream().anyMatch(StatesCell::takesCauses);
        if (!type.causes().file().isEmpty() && !used) {
            problems.warning(
                    new Place(type.points(), 1, 1),
                    "no row without states of its own says fault-cause or past-fault-cause under means, so that the"
                            + " causes of " + type.causes().file() + " are not used");
        }
    }

    /** They are kept for the time when they are told, and nobody should rely on them before. */
    private void noteAlarms(List<PointDefinition> points) {
        List<PointDefinition> alarms = points.stream()
                .filter(point -> point.options().alarm().isPresent())
                .toList();
        if (!alarms.isEmpty()) {
            Objects.requireNonNull(byName.get(alarms.get(0).name()))
                    .note(
                            AlarmCell.COLUMN,
                            "this version tells no alarms, neither on BACnet nor on MQTT; that of "
                                    + alarms.get(0).name()
                                    + (alarms.size() == 1 ? "" : " and " + (alarms.size() - 1) + " more of this list")
                                    + " will be told by a later one");
        }
    }

    /** Where the program looks for one point of a meaning, it must not find two. */
    private void checkMeanings(List<PointDefinition> points) {
        Map<Meaning, PointRow> seen = new EnumMap<>(Meaning.class);
        for (PointDefinition point : points) {
            point.options().meaning().filter(Meaning::isOnce).ifPresent(meaning -> {
                PointRow row = Objects.requireNonNull(byName.get(point.name()));
                PointRow before = seen.putIfAbsent(meaning, row);
                if (before != null) {
                    row.error(
                            MeaningCell.COLUMN,
                            "a controller has one " + meaning.word() + ", and line "
                                    + before.place("name").line() + " has it already");
                }
            });
        }
    }

    private Optional<PointDefinition> point(PointRow row) {
        if (row.text(OnReadCell.COLUMN).equals(OnReadCell.CLEARS)) {
            cleared.add(row.text("name"));
        }
        Optional<PointDefinition> point = PointRowReader.read(row, type, zone, units, language, basicObjects);
        if (point.isEmpty()) {
            return point;
        }
        PointRow before = byName.putIfAbsent(point.get().name(), row);
        if (before != null) {
            row.error(
                    "name",
                    "'" + point.get().name() + "' is also the name of line "
                            + before.place("name").line());
            return Optional.empty();
        }
        return point;
    }

    /** What is asked for must be there, so that a slip of the pen does not look like a request. */
    private void checkReadClearing() {
        for (YamlMap.Item item : type.readClearing()) {
            if (!cleared.contains(item.text())) {
                problems.error(
                        item.place(),
                        "types." + type.name() + "." + TypeReader.READ_CLEARING + ": must name rows of " + type.points()
                                + " that say clears under on-read (was '" + item.text() + "')"
                                + NearestWord.hint(item.text(), cleared));
            }
        }
    }

    /** A cell below an empty header is probably one whose column lost its name. */
    private void refuseNamelessCells(List<Cell> header, List<Cell> cells) {
        for (int i = 0; i < Math.min(header.size(), cells.size()); i++) {
            if (header.get(i).text().isEmpty() && !cells.get(i).text().isEmpty()) {
                problems.error(
                        cells.get(i).place(),
                        "the header has no name for this column, so what it holds would be lost (was '"
                                + cells.get(i).text() + "'); note-… is for notes of your own");
            }
        }
    }
}
