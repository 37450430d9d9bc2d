package burnerbridge.config.csv;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Writes a line of CSV that a spreadsheet can open without running any of it.
 *
 * <p>A cell that a spreadsheet would take for a formula, and that is not simply a number, gets an
 * apostrophe in front; the readers of this package take it off again. A cell with a separator, a quote or a
 * line end is quoted (RFC 4180, section 2).
 */
public final class CsvLine {
    private static final String FORMULA_STARTS = "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20";
    private static final String NUMBER = "[+-]?\\d+([.,]\\d+)?([eE][+-]?\\d+)?";

    private CsvLine() {}

    /** The line without its end. */
    public static String of(List<String> cells, char separator) {
        return cells.stream().map(cell -> cell(cell, separator)).collect(Collectors.joining(String.valueOf(separator)));
    }

    /** One cell, neutralised, and quoted where it must be. */
    public static String cell(String text, char separator) {
        String safe = startsAFormula(text) ? "'" + text : text;
        boolean quoted = safe.indexOf(separator) >= 0 || safe.chars().anyMatch(c -> c == '"' || c == '\n' || c == '\r');
        boolean padded = !safe.equals(safe.strip());
        return quoted || padded ? '"' + safe.replace("\"", "\"\"") + '"' : safe;
    }

    private static boolean startsAFormula(String text) {
        return !text.isEmpty()
                && (FORMULA_STARTS.indexOf(text.charAt(0)) >= 0 || isNeutralised(text))
                && !text.matches(NUMBER);
    }

    /** Whether a cell begins with an apostrophe that stands there only for a spreadsheet. */
    static boolean isNeutralised(String text) {
        return text.length() > 1
                && text.charAt(0) == '\''
                && (FORMULA_STARTS.indexOf(text.charAt(1)) >= 0 || isNeutralised(text.substring(1)));
    }
}
