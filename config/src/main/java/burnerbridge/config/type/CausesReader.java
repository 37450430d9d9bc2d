package burnerbridge.config.type;

import burnerbridge.config.csv.CsvTable;
import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.row.HeaderCheck;
import burnerbridge.config.row.Language;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.Severity;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** Reads files of fault causes, {@code number,text,severity}, each once however many types name it. */
public final class CausesReader {
    private static final String NUMBER = "number";
    private static final String TEXT = "text";
    private static final String SEVERITY = "severity";
    private static final List<String> COLUMNS = List.of(NUMBER, TEXT, SEVERITY);

    private final Path folder;
    private final Language language;
    private final Problems problems;
    private final Map<String, States> read = new HashMap<>();

    public CausesReader(Path folder, Language language, Problems problems) {
        this.folder = folder;
        this.language = language;
        this.problems = problems;
    }

    /** The causes of a file as states; without the rows that are wrong. */
    States read(String file) {
        return read.computeIfAbsent(file, this::causes);
    }

    private States causes(String file) {
        Optional<List<List<Cell>>> rows = CsvTable.read(folder, file, problems);
        if (rows.isEmpty()) {
            return States.NONE;
        }
        if (rows.get().size() < 2) {
            problems.error(Place.wholeFile(file), "must hold a header and at least one cause");
            return States.NONE;
        }
        List<Cell> header = rows.get().get(0);
        language.check(header, problems);
        if (!new HeaderCheck(COLUMNS, List.of(NUMBER, TEXT), problems).isSound(header)) {
            return States.NONE;
        }
        if (rows.get().size() - 1 > StateNumbers.HIGHEST) {
            problems.error(
                    rows.get().get(StateNumbers.HIGHEST + 1).get(0).place(),
                    "the file holds at most " + StateNumbers.HIGHEST
                            + " causes, since a multi-state object has no more states (was "
                            + (rows.get().size() - 1) + ")");
        }
        return causes(header, rows.get().subList(1, rows.get().size()));
    }

    private States causes(List<Cell> header, List<List<Cell>> rows) {
        Map<Long, String> texts = new LinkedHashMap<>();
        Map<Long, Severity> severities = new HashMap<>();
        Map<Long, Place> places = new HashMap<>();
        for (List<Cell> cells : rows) {
            Place place = cells.get(0).place();
            PointRow row = new PointRow(CsvTable.byColumn(header, cells, problems), place, problems);
            OptionalLong number = number(row);
            String text = text(row);
            Optional<Severity> severity = row.word(SEVERITY, Severity.words()).flatMap(Severity::ofWord);
            if (row.isFaulty() || number.isEmpty()) {
                continue;
            }
            Place before = places.putIfAbsent(number.getAsLong(), place);
            if (before != null) {
                row.error(NUMBER, "cause " + number.getAsLong() + " stands in line " + before.line() + " already");
                continue;
            }
            texts.put(number.getAsLong(), text);
            severity.ifPresent(s -> severities.put(number.getAsLong(), s));
        }
        return new States(texts, severities);
    }

    private static OptionalLong number(PointRow row) {
        String text = row.required(NUMBER);
        if (text.matches("-?\\d{1,10}")) {
            return OptionalLong.of(Long.parseLong(text));
        }
        if (text.matches("0[xX][0-9a-fA-F]{1,8}")) {
            return OptionalLong.of(Long.parseLong(text.substring(2), 16));
        }
        if (!text.isEmpty()) {
            row.error(
                    NUMBER,
                    "must be a whole number as the controller sends it, decimal or with 0x (was '" + text + "')");
        }
        return OptionalLong.empty();
    }

    private String text(PointRow row) {
        row.required(TEXT);
        String text = language.text(row, TEXT);
        if (text.length() > Language.LONGEST_TEXT) {
            row.error(TEXT, "a text has at most " + Language.LONGEST_TEXT + " characters (was " + text.length() + ")");
        }
        return text;
    }
}
