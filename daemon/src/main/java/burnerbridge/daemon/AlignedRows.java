package burnerbridge.daemon;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;

/** Rows whose columns are as wide as what stands in them, so that they fit a narrow terminal where they can. */
final class AlignedRows {
    private static final String INDENT = "  ";
    private final List<List<String>> rows = new ArrayList<>();

    AlignedRows(String... header) {
        rows.add(List.of(header));
    }

    void add(String... cells) {
        if (cells.length != rows.get(0).size()) {
            throw new IllegalArgumentException(
                    "a row has " + rows.get(0).size() + " cells here (was " + cells.length + ")");
        }
        rows.add(List.of(cells));
    }

    void print(PrintWriter out) {
        rows.forEach(row -> out.println(text(row)));
    }

    private String text(List<String> row) {
        StringBuilder text = new StringBuilder(INDENT);
        for (int i = 0; i < row.size(); i++) {
            text.append(row.get(i));
            text.append(" ".repeat(width(i) + 1 - length(row.get(i))));
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
