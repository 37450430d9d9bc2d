package burnerbridge.benchmark.measure;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Figures as rows of CSV, for programs: numbers with all their digits, texts between quotation marks. */
public final class FigureRows {
    static final String HEADER = "run,what,unit,median,low,high,spread,reference,reference-median,aim";
    private static final int COLUMNS = 10;
    private static final Pattern CELL = Pattern.compile("(?:\"((?:[^\"]|\"\")*)\"|([^,\"]*))(?:,|$)");

    private FigureRows() {}

    static String row(Figure figure) {
        Seen seen = figure.seen();
        return String.join(
                ",",
                quoted(figure.run()),
                quoted(figure.what()),
                quoted(figure.unit()),
                number(seen.median()),
                number(seen.low()),
                number(seen.high()),
                quoted(seen.kind().word()),
                quoted(figure.reference()),
                number(figure.referenceMedian()),
                quoted(figure.aim().text()));
    }

    private static String quoted(String text) {
        return '"' + text.replace("\"", "\"\"") + '"';
    }

    private static String number(double value) {
        return Double.isNaN(value) ? "" : Double.toString(value);
    }

    /**
     * All rows of a file; none where there is no such file, since nothing was measured then.
     *
     * @throws IllegalArgumentException where a line is no such row; it names file, line and what is wrong
     */
    public static List<Figure> read(Path file) throws IOException {
        List<Figure> figures = new ArrayList<>();
        List<String> lines = Files.exists(file) ? Files.readAllLines(file) : List.of(HEADER);
        if (lines.isEmpty() || !lines.get(0).equals(HEADER)) {
            throw new IllegalArgumentException(file + ":1: must be the header " + HEADER);
        }
        for (int i = 1; i < lines.size(); i++) {
            try {
                figures.add(parse(lines.get(i)));
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException(file + ":" + (i + 1) + ": " + e.getMessage(), e);
            }
        }
        return figures;
    }

    static Figure parse(String row) {
        List<String> cells = cells(row);
        if (cells.size() != COLUMNS) {
            throw new IllegalArgumentException("must have " + COLUMNS + " columns (has " + cells.size() + ")");
        }
        Seen seen = new Seen(value(cells.get(3)), value(cells.get(4)), value(cells.get(5)), Seen.Kind.of(cells.get(6)));
        return new Figure(
                cells.get(0),
                cells.get(1),
                cells.get(2),
                seen,
                cells.get(7),
                value(cells.get(8)),
                Aim.parse(cells.get(9)));
    }

    private static List<String> cells(String row) {
        List<String> cells = new ArrayList<>();
        Matcher matcher = CELL.matcher(row);
        for (int at = 0; cells.size() <= COLUMNS && matcher.find(at) && matcher.start() == at; at = matcher.end()) {
            cells.add(
                    matcher.group(1) == null
                            ? matcher.group(2)
                            : matcher.group(1).replace("\"\"", "\""));
            if (matcher.end() == row.length()) {
                return row.endsWith(",") ? endingEmpty(cells) : cells;
            }
        }
        throw new IllegalArgumentException("no row: " + row);
    }

    private static List<String> endingEmpty(List<String> cells) {
        cells.add("");
        return cells;
    }

    private static double value(String text) {
        return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
    }
}
