package burnerbridge.config.csv;

import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.problem.Problems;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Reads cells as people meant them before a spreadsheet or a word processor improved them: decimal commas,
 * typographic dashes, spaces that do not break, apostrophes that mark text, whole numbers with a decimal.
 * What could mean two things is told, never guessed.
 */
public final class CellHabits {
    private static final Set<String> DECIMALS =
            Set.of("scale", "offset", "raw-low", "raw-high", "low", "high", "change", "valid", "no-value", "alarm");
    private static final Set<String> FREE_TEXT = Set.of("description", "source", "text", "object-name");

    private static final Pattern INVISIBLE = Pattern.compile("[\\u00AD\\u200B-\\u200F\\u2060\\uFEFF]");
    private static final Pattern SPACES = Pattern.compile("[\\u00A0\\u2007\\u2009\\u202F\\u3000]");
    private static final Pattern DASHES = Pattern.compile("[\\u2010-\\u2015\\u2212\\uFE63\\uFF0D]");
    private static final Pattern STATE_DASHES =
            Pattern.compile("(?<=^|\\|)\\s*[\\u2010-\\u2015\\u2212](?=\\s*\\d+\\s*=)");
    private static final Pattern DECIMAL_COMMA = Pattern.compile("(?<![\\d.,])(\\d+),(\\d+)(?![\\d.,])");
    private static final Pattern MAYBE_THOUSANDS = Pattern.compile("[+-]?[1-9]\\d{0,2}\\.\\d{3}");
    private static final Pattern WHOLE_WITH_DECIMAL = Pattern.compile("(\\d+)[.,]0{1,6}");

    private final boolean commasAreDecimal;
    private final boolean hasDecimalCommas;

    private CellHabits(boolean commasAreDecimal, boolean hasDecimalCommas) {
        this.commasAreDecimal = commasAreDecimal;
        this.hasDecimalCommas = hasDecimalCommas;
    }

    /** @param header the names of the columns, already plain */
    static CellHabits of(CsvFile file, List<Cell> header) {
        boolean commasAreDecimal = file.separator() != ',';
        boolean hasDecimalCommas =
                commasAreDecimal && file.rows().stream().skip(1).anyMatch(row -> hasDecimalComma(header, row.cells()));
        return new CellHabits(commasAreDecimal, hasDecimalCommas);
    }

    private static boolean hasDecimalComma(List<Cell> header, List<Cell> cells) {
        return IntStream.range(0, Math.min(header.size(), cells.size()))
                .filter(i -> DECIMALS.contains(header.get(i).text()))
                .anyMatch(i ->
                        !withPoints(cells.get(i).text()).equals(cells.get(i).text()));
    }

    /** Without what cannot be seen. */
    static String plain(String text) {
        return SPACES.matcher(INVISIBLE.matcher(text).replaceAll(""))
                .replaceAll(" ")
                .strip();
    }

    /** With the dash of a keyboard for those of typesetters. */
    public static String plainDashes(String text) {
        return DASHES.matcher(text).replaceAll("-");
    }

    /** What a cell says; a number that could be two is a problem. */
    String read(String column, Cell cell, Problems problems) {
        String text = plain(cell.text());
        if (isFreeText(column)) {
            return CsvLine.isNeutralised(text) ? text.substring(1) : text;
        }
        text = text.startsWith("'") ? text.substring(1).strip() : text;
        if (column.equals("states")) {
            return STATE_DASHES.matcher(text).replaceAll("-");
        }
        text = plainDashes(text);
        if (column.equals("address") || column.equals("number")) {
            return WHOLE_WITH_DECIMAL.matcher(text).matches()
                    ? WHOLE_WITH_DECIMAL.matcher(text).replaceAll("$1")
                    : text;
        }
        return DECIMALS.contains(column) ? decimal(column, text, cell, problems) : text;
    }

    private static boolean isFreeText(String column) {
        return FREE_TEXT.contains(column) || column.startsWith("text.") || column.startsWith("note-");
    }

    private String decimal(String column, String text, Cell cell, Problems problems) {
        String range = text.replace("\u2026", "..");
        if (hasDecimalCommas && MAYBE_THOUSANDS.matcher(range).matches()) {
            problems.error(
                    cell.place(),
                    column + ": could be " + range.replace(".", "") + " or " + range.replaceFirst("0+$", "")
                            + ", since other cells of this file have decimal commas (was '" + text
                            + "'); write it without a separator of thousands, or with a comma");
        }
        return commasAreDecimal ? withPoints(range) : range;
    }

    /** Both ends of a range by themselves, since its dots are no separators of thousands. */
    private static String withPoints(String text) {
        return Arrays.stream(text.split("\\.\\.", -1))
                .map(part -> DECIMAL_COMMA.matcher(part).replaceAll("$1.$2"))
                .collect(Collectors.joining(".."));
    }
}
