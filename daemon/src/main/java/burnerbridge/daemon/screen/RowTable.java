package burnerbridge.daemon.screen;

import burnerbridge.values.PointRow;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToIntFunction;

/**
 * Rows in aligned columns. The columns grow with what they are given and never shrink again, so that a
 * table that is drawn over itself stands still; where the width is not enough the widest give way first.
 */
public final class RowTable {
    private static final String GAP = "  ";
    /** Who gives way first. Names last: a row without them is of no use. */
    private static final List<Column> GIVING_WAY = List.of(
            Column.ADDRESS,
            Column.ASKED,
            Column.REGISTERS,
            Column.QUALITY,
            Column.VALUE,
            Column.POINT,
            Column.CONTROLLER,
            Column.UNIT,
            Column.AGE);

    private final List<Column> columns = new ArrayList<>();
    private final int[] wanted = new int[Column.values().length];

    /** @param addresses whether both numberings are shown */
    public RowTable(boolean addresses) {
        for (Column column : Column.values()) {
            if (column != Column.ASKED && (addresses || column != Column.ADDRESS)) {
                add(column);
            }
        }
    }

    private void add(Column column) {
        columns.add(column);
        wanted[column.ordinal()] = column.least();
    }

    /** Makes room for a row. */
    public void make(PointRow row) {
        if (row.asked() != null && !columns.contains(Column.ASKED)) {
            add(Column.ASKED);
        }
        for (Column column : columns) {
            int width = Math.min(column.most(), TextWidth.of(column.cell(row)));
            wanted[column.ordinal()] = Math.max(wanted[column.ordinal()], width);
        }
    }

    /** The titles, at most so wide. */
    public String head(int width) {
        int[] widths = widths(width);
        StringBuilder line = new StringBuilder();
        for (Column column : columns) {
            line.append(line.isEmpty() ? "" : GAP)
                    .append(TextWidth.fit(column.title(), widths[column.ordinal()], column.toTheRight()));
        }
        return TextWidth.cut(line.toString().stripTrailing(), width);
    }

    /** A row as plain text, at most so wide. */
    public String text(PointRow row, int width) {
        return line(row, width).text();
    }

    ScreenLine line(PointRow row, int width) {
        int[] widths = widths(width);
        StringBuilder line = new StringBuilder();
        int from = 0;
        int to = 0;
        for (Column column : columns) {
            line.append(line.isEmpty() ? "" : GAP);
            int start = line.length();
            line.append(TextWidth.fit(column.cell(row), widths[column.ordinal()], column.toTheRight()));
            if (column == Column.QUALITY) {
                from = start;
                to = start + column.cell(row).length();
            }
        }
        String cut = TextWidth.cut(line.toString().stripTrailing(), width);
        return new ScreenLine(cut, Math.min(from, cut.length()), Math.min(to, cut.length()), row.quality());
    }

    private int[] widths(int width) {
        int[] widths = new int[wanted.length];
        for (Column column : columns) {
            widths[column.ordinal()] =
                    Math.max(wanted[column.ordinal()], column.title().length());
        }
        squeeze(widths, width, column -> wanted[column.ordinal()]);
        squeeze(widths, width, Column::least);
        return widths;
    }

    /** Until the line fits, or every column is as narrow as it may become. */
    private void squeeze(int[] widths, int width, ToIntFunction<Column> narrowest) {
        int over = Arrays.stream(widths).sum() + GAP.length() * (columns.size() - 1) - width;
        for (Column column : GIVING_WAY) {
            if (over > 0 && columns.contains(column)) {
                int given = Math.min(over, Math.max(0, widths[column.ordinal()] - narrowest.applyAsInt(column)));
                widths[column.ordinal()] -= given;
                over -= given;
            }
        }
    }
}
