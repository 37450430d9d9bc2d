package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.values.PointRow;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;

/** The table as people read it, as wide as its rows want. */
public final class TableFormat implements RowFormat {
    private static final int ANY_WIDTH = 1000;

    private final RowTable table;
    private final String title;

    public TableFormat(RowTable table, String title) {
        this.table = table;
        this.title = title;
    }

    @Override
    public Summary print(RowSource source, Query query, PrintWriter out) throws ControlException {
        List<PointRow> rows = new ArrayList<>();
        Summary summary = source.read(query, rows::add);
        rows.forEach(table::make);
        out.println(title);
        out.println(table.head(ANY_WIDTH));
        rows.forEach(row -> out.println(table.text(row, ANY_WIDTH)));
        out.println(LiveTable.counts(summary));
        summary.down().forEach(words -> out.println("  " + TextWidth.harmless(words)));
        return summary;
    }
}
