package burnerbridge.daemon;

import burnerbridge.values.PointRow;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import burnerbridge.values.TableRows;
import java.util.function.Consumer;

/** The rows of lines that this command reads by itself, which end with it. */
final class OwnRows implements RowSource {
    private final TableRows rows;
    private final StopStack started;

    /** @param started what is ended with the rows */
    OwnRows(TableRows rows, StopStack started) {
        this.rows = rows;
        this.started = started;
    }

    @Override
    public Summary read(Query query, Consumer<PointRow> row) {
        return rows.read(query, row);
    }

    @Override
    public void close() {
        started.close();
    }
}
