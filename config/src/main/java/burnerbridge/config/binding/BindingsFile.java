package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingRow.Gone;
import burnerbridge.config.csv.CsvFile;
import burnerbridge.config.csv.CsvTable;
import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.csv.SpreadsheetTrace;
import burnerbridge.config.file.SiteFileReader;
import burnerbridge.config.meaning.StateNumbersCell;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.StateNumbers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads {@code bindings.csv}: which BACnet object instance each point of a type has, for ever. */
public final class BindingsFile {
    public static final String NAME = "bindings.csv";
    static final List<String> COLUMNS = List.of("type", "point", "object", "offset", "states", "at", "was", "gone");

    private static final List<String> REQUIRED = COLUMNS.subList(0, 4);
    private static final List<String> KINDS = Arrays.stream(ObjectKind.values())
            .filter(kind -> kind != ObjectKind.NONE)
            .map(ObjectKind::word)
            .toList();

    /**
     * What was read.
     *
     * @param file the file itself; empty where there is none, or it is no CSV
     */
    public record Content(Optional<CsvFile> file, List<BindingRow> rows) {
        static final Content NOTHING = new Content(Optional.empty(), List.of());
    }

    private final Problems problems;

    public BindingsFile(Problems problems) {
        this.problems = problems;
    }

    /** The rows of the file; none where there is no such file. */
    public Content read(Path folder) {
        if (!Files.exists(folder.resolve(NAME))) {
            return Content.NOTHING;
        }
        Optional<CsvFile> file = CsvTable.readFile(folder, NAME, problems);
        if (file.isEmpty() || file.get().rows().isEmpty()) {
            return Content.NOTHING;
        }
        List<Cell> header = file.get().rows().get(0).cells();
        return checkHeader(header) ? new Content(file, rows(header, file.get().rows())) : new Content(file, List.of());
    }

    private boolean checkHeader(List<Cell> header) {
        Set<String> seen = new HashSet<>();
        boolean sound = true;
        for (Cell cell : header) {
            boolean known = COLUMNS.contains(cell.text());
            if (!known && !cell.text().isEmpty() && !cell.text().startsWith("note-")) {
                problems.error(
                        cell.place(),
                        "column '" + cell.text() + "' is not known (known: " + String.join(", ", COLUMNS)
                                + ", and note-… for notes of your own)" + NearestWord.hint(cell.text(), COLUMNS));
                sound = false;
            } else if (known && !seen.add(cell.text())) {
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

    private List<BindingRow> rows(List<Cell> header, List<CsvFile.Row> rows) {
        List<BindingRow> read = new ArrayList<>();
        Map<String, Place> points = new HashMap<>();
        Map<String, Place> offsets = new HashMap<>();
        for (CsvFile.Row cells : rows.subList(1, rows.size())) {
            if (problems.isFull(NAME)) {
                break;
            }
            Place place = cells.cells().get(0).place();
            PointRow row = new PointRow(CsvTable.byColumn(header, cells.cells(), problems), place, problems);
            row(row, place).ifPresent(entry -> {
                if (entry.isLive()) {
                    refuseTwice(row, "point", points.putIfAbsent(entry.id(), place));
                }
                String offset = entry.type() + " " + entry.objectText();
                refuseTwice(row, "offset", offsets.putIfAbsent(offset, place));
                if (!row.isFaulty()) {
                    read.add(entry);
                }
            });
        }
        return read;
    }

    private static void refuseTwice(PointRow row, String column, Place before) {
        if (before != null) {
            row.error(column, "'" + row.text(column) + "' is already bound in line " + before.line());
        }
    }

    private static Optional<BindingRow> row(PointRow row, Place place) {
        Optional<Name> type = name(row, "type");
        Optional<Name> point = name(row, "point");
        row.required("object");
        Optional<ObjectKind> object = row.word("object", KINDS).map(word -> ObjectKind.values()[KINDS.indexOf(word)]);
        String offset = row.required("offset").replaceFirst("\\.0+$", "");
        if (!offset.isEmpty() && !isOffset(offset)) {
            row.error("offset", "must be 1 to " + SiteFileReader.LAST_INSTANCE + " (was '" + offset + "')");
        }
        StateNumbers states = StateNumbersCell.read(row);
        if (!states.isEmpty() && object.isPresent() && !object.get().isMultiState()) {
            row.error("states", "only a multi-state object has numbers of states");
        }
        List<String> was = was(row);
        Gone gone = gone(row);
        if (row.isFaulty() || type.isEmpty() || point.isEmpty() || object.isEmpty()) {
            return Optional.empty();
        }
        Binding binding = new Binding(type.get(), point.get(), object.get(), Integer.parseInt(offset), states);
        return Optional.of(new BindingRow(binding, row.text("at"), was, gone, place));
    }

    private static boolean isOffset(String text) {
        return text.matches("\\d{1,7}")
                && Integer.parseInt(text) >= 1
                && Integer.parseInt(text) <= SiteFileReader.LAST_INSTANCE;
    }

    private static Optional<Name> name(PointRow row, String column) {
        String text = row.required(column);
        String objection = text.isEmpty() ? "" : Name.objectionTo(text);
        if (!objection.isEmpty()) {
            row.error(column, objection);
        }
        return text.isEmpty() || !objection.isEmpty() ? Optional.empty() : Optional.of(new Name(text));
    }

    private static List<String> was(PointRow row) {
        List<String> names = new ArrayList<>();
        if (row.has("was")) {
            for (String part : row.text("was").split("\\|", -1)) {
                String name = part.strip();
                String objection = name.matches("[^.]+\\.[^.]+")
                        ? Name.objectionTo(name.substring(0, name.indexOf('.')))
                                + Name.objectionTo(name.substring(name.indexOf('.') + 1))
                        : Name.objectionTo(name);
                if (objection.isEmpty()) {
                    names.add(name);
                } else {
                    row.error("was", "must be former names, separated by |: " + objection);
                }
            }
        }
        return names;
    }

    /** {@code yes} in any language of a spreadsheet that made a truth value of it. */
    private static Gone gone(PointRow row) {
        String text = row.text("gone");
        if (text.isEmpty() || text.equals("no") || SpreadsheetTrace.isFalse(text)) {
            return Gone.NO;
        }
        if (text.equals(Gone.FOR_GOOD.word())) {
            return Gone.FOR_GOOD;
        }
        if (!text.equals(Gone.YES.word()) && !SpreadsheetTrace.isTrue(text)) {
            row.error("gone", "must be empty, yes or for-good (was '" + text + "')");
        }
        return Gone.YES;
    }
}
