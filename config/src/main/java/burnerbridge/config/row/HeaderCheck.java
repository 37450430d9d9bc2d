package burnerbridge.config.row;

import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.problem.Problems;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Holds the header of a file against the columns that it may have. */
public final class HeaderCheck {
    private static final String NOTES = "note-";

    private final List<String> known;
    private final List<String> required;
    private final Problems problems;

    public HeaderCheck(List<String> known, List<String> required, Problems problems) {
        this.known = known;
        this.required = required;
        this.problems = problems;
    }

    /** Whether every column is known, there once, and none is missing; those of languages are taken for known. */
    public boolean isSound(List<Cell> header) {
        Set<String> seen = new HashSet<>();
        boolean sound = true;
        for (Cell cell : header) {
            String column = cell.text();
            if (column.isEmpty() || column.startsWith(NOTES)) {
                continue;
            }
            if (!known.contains(column) && !Language.isColumn(column)) {
                problems.error(
                        cell.place(),
                        "column '" + column + "' is not known (known: " + String.join(", ", known)
                                + ", text.xx for another language, and note-… for notes of your own)"
                                + NearestWord.hint(column, known));
                sound = false;
            } else if (!seen.add(column)) {
                problems.error(cell.place(), "column '" + column + "' stands here twice");
                sound = false;
            }
        }
        for (String column : required) {
            if (!seen.contains(column)) {
                problems.error(header.get(0).place(), "column '" + column + "' is missing");
                sound = false;
            }
        }
        return sound;
    }
}
