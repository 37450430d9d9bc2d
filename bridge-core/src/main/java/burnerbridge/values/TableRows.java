package burnerbridge.values;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.table.ValueTable;
import java.util.function.Consumer;

/** The rows of a value table of this process. */
public final class TableRows implements RowSource {
    private final ValueTable table;
    private final AskedFor.Source asked;
    private final BridgeClock clock;

    public TableRows(ValueTable table, AskedFor.Source asked, BridgeClock clock) {
        this.table = table;
        this.asked = asked;
        this.clock = clock;
    }

    @Override
    public Summary read(Query query, Consumer<PointRow> row) {
        Stamp now = clock.now();
        Snapshot snapshot = Snapshot.take(table, asked, query, now);
        snapshot.window().forEach(seen -> row.accept(seen.row(now)));
        return snapshot.summary();
    }

    @Override
    public void close() {
        // The table is its owner's.
    }
}
