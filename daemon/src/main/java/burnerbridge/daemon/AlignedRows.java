package burnerbridge.daemon;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** Rows whose columns are as wide as what stands in them, so that they fit a narrow terminal where they can. */
final class AlignedRows {
    private static final String INDENT = "  ";
    private static final int TERMINAL = 80;

    private final List<List<String>> rows = new ArrayList<>();

    AlignedRows(String... header) {
        rows.add(List.of(header));
    }

    void add(String... cells) {
        if (cells.length != columns()) {
            throw new IllegalArgumentException("a row has " + columns() + " cells here (was " + cells.length + ")");
        }
        rows.add(List.of(cells));
    }

    boolean isEmpty() {
        return rows.size() == 1;
    }

    /** Nothing where there is no row. Where the rows are wider than a terminal, each takes two lines. */
    void print(PrintWriter out) {
        if (isEmpty()) {
            return;
        }
        // Once for all rows: a large site has a hundred thousand of them.
        int[] widths = IntStream.range(0, columns()).map(this::width).toArray();
        int width = INDENT.length() + IntStream.of(widths).map(each -> each + 1).sum() - 1;
        if (width <= TERMINAL) {
            rows.forEach(row -> out.println(INDENT + text(row, 0, widths)));
        } else {
            rows.forEach(row -> {
                out.println(INDENT + row.get(0));
                out.println(INDENT + INDENT + text(row, 1, widths));
            });
        }
    }

    private int columns() {
        return rows.get(0).size();
    }

    private static String text(List<String> row, int from, int[] widths) {
        StringBuilder text = new StringBuilder();
        for (int i = from; i < row.size(); i++) {
            text.append(row.get(i));
            text.append(" ".repeat(widths[i] + 1 - length(row.get(i))));
        }
        return text.toString().stripTrailing();
    }

    private int width(int column) {
        return rows.stream().mapToInt(row -> length(row.get(column))).max().orElse(0);
    }

    private static int length(String text) {
        return text.codePointCount(0, text.length());
    }
}
