package burnerbridge.daemon.screen;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Cells as CSV has them (RFC 4180). A text that a spreadsheet would take for a formula gets an apostrophe
 * in front; numbers keep their sign.
 */
final class CsvCells {
    private static final Pattern FORMULA = Pattern.compile("[=+\\-@\\t\\r].*", Pattern.DOTALL);
    private static final Pattern NUMBER = Pattern.compile("[+-]?\\d+(\\.\\d+)?");

    private CsvCells() {}

    static String line(List<String> cells) {
        return cells.stream().map(CsvCells::cell).collect(Collectors.joining(","));
    }

    private static String cell(String text) {
        boolean runs = FORMULA.matcher(text).matches() && !NUMBER.matcher(text).matches();
        String harmless = runs ? "'" + text : text;
        boolean quoted = harmless.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return quoted ? '"' + harmless.replace("\"", "\"\"") + '"' : harmless;
    }
}
