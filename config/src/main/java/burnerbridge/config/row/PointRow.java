package burnerbridge.config.row;

import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.csv.SpreadsheetTrace;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Collection;
import java.util.Map;
import java.util.Optional;

/** One row of a point list, read cell by cell; what is wrong becomes a problem at the cell. */
public final class PointRow {
    private final Map<String, Cell> cells;
    private final Place rowPlace;
    private final Problems problems;
    private boolean faulty;

    public PointRow(Map<String, Cell> cells, Place rowPlace, Problems problems) {
        this.cells = cells;
        this.rowPlace = rowPlace;
        this.problems = problems;
    }

    public boolean isFaulty() {
        return faulty;
    }

    /** The cell of a column; empty text where the column or the cell is absent. */
    public String text(String column) {
        Cell cell = cells.get(column);
        return cell == null ? "" : cell.text();
    }

    public boolean has(String column) {
        return !text(column).isEmpty();
    }

    public void error(String column, String message) {
        faulty = true;
        problems.error(place(column), column + ": " + message + SpreadsheetTrace.hint(text(column)));
    }

    public void warning(String column, String message) {
        problems.warning(place(column), column + ": " + message);
    }

    public void note(String column, String message) {
        problems.note(place(column), column + ": " + message);
    }

    public Place place(String column) {
        Cell cell = cells.get(column);
        return cell == null ? rowPlace : cell.place();
    }

    public String required(String column) {
        String text = text(column);
        if (text.isEmpty()) {
            error(column, "is empty; every row needs one");
        }
        return text;
    }

    /** A word out of a closed list; empty where the cell is empty or wrong. */
    public Optional<String> word(String column, Collection<String> allowed) {
        String text = text(column);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!allowed.contains(text)) {
            error(
                    column,
                    "must be one of " + String.join(", ", allowed) + " (was '" + text + "')"
                            + NearestWord.hint(text, allowed));
            return Optional.empty();
        }
        return Optional.of(text);
    }

    public Optional<BigDecimal> decimal(String column) {
        String text = text(column);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!text.matches("[+-]?(\\d{1,12}(\\.\\d{0,12})?|\\.\\d{1,12})([eE][+-]?\\d{1,2})?")) {
            error(column, "must be a decimal number with a point, like 0.1 (was '" + text + "')");
            return Optional.empty();
        }
        return Optional.of(new BigDecimal(text));
    }

    public Optional<Duration> duration(String column, Duration least, Duration most) {
        String text = text(column);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Optional<Duration> duration = Durations.parse(text);
        if (duration.isEmpty()) {
            error(column, "must be " + Durations.ALLOWED + " (was '" + text + "')");
        } else if (duration.get().compareTo(least) < 0 || duration.get().compareTo(most) > 0) {
            error(column, "must be " + Durations.text(least) + " to " + Durations.text(most) + " (was '" + text + "')");
            return Optional.empty();
        }
        return duration;
    }
}
