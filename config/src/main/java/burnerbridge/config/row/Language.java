package burnerbridge.config.row;

import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.yaml.YamlMap;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * In which language texts are shown: the one of {@code language} in {@code site.yaml}, where a row has a text
 * in it, and else the one that the row begins with.
 *
 * @param code of two or three letters (RFC 5646, 2.2.1); empty for the texts as they stand
 */
public record Language(String code) {
    static final Language AS_WRITTEN = new Language("");

    /** Of the text of a state, in characters. */
    public static final int LONGEST_TEXT = 64;

    private static final String COLUMN = "text.";

    /** The {@code language} of the site file. */
    public static Language read(YamlMap top) {
        Optional<String> code = top.text("language");
        String objection = code.map(Language::objectionTo).orElse("");
        if (!objection.isEmpty()) {
            top.error("language", objection);
        }
        return code.filter(c -> objection.isEmpty()).map(Language::new).orElse(AS_WRITTEN);
    }

    /** The code; empty where texts are shown as they stand. */
    public Optional<String> chosen() {
        return Optional.of(code).filter(c -> !c.isEmpty());
    }

    /** Whether a column holds texts in a language, by its name. */
    public static boolean isColumn(String column) {
        return column.startsWith(COLUMN);
    }

    /** Tells columns of what is no language, and where none is in the chosen one. */
    public void check(List<Cell> header, Problems problems) {
        for (Cell cell : header) {
            String objection = isColumn(cell.text()) ? objectionTo(cell.text().substring(COLUMN.length())) : "";
            if (!objection.isEmpty()) {
                problems.error(cell.place(), "column '" + cell.text() + "': " + objection);
            }
        }
        if (!code.isEmpty() && header.stream().noneMatch(cell -> cell.text().equals(COLUMN + code))) {
            problems.note(
                    header.get(0).place(),
                    "has no column " + COLUMN + code + ", so that its texts are shown as they stand");
        }
    }

    /** The text of a row in this language, or that of a column. */
    public String text(PointRow row, String otherwise) {
        return column(row, otherwise).map(row::text).orElseGet(() -> row.text(otherwise));
    }

    private Optional<String> column(PointRow row, String otherwise) {
        return Optional.of(code.isEmpty() ? otherwise : COLUMN + code).filter(row::has);
    }

    private static String objectionTo(String code) {
        List<String> known = Arrays.asList(Locale.getISOLanguages());
        String allowed =
                "must be a language's code of two letters, or of three where it has none of two, like en or pt";
        if (code.matches("[a-z]{2}") && known.contains(code)) {
            return "";
        }
        Optional<String> shorter = known.stream()
                .filter(two -> two.equalsIgnoreCase(code.replaceFirst("[-_].*", "")) || isLonger(code, two))
                .findFirst();
        if (shorter.isEmpty() && code.matches("[a-z]{3}")) {
            return "";
        }
        return allowed + " (was '" + code + "')"
                + shorter.map(two -> "; did you mean '" + two + "'?").orElse("");
    }

    private static boolean isLonger(String code, String two) {
        return new Locale(two).getISO3Language().equalsIgnoreCase(code);
    }
}
