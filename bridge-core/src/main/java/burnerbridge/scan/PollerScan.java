package burnerbridge.scan;

import burnerbridge.poll.LinePoller;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.function.Consumer;

/** The rows of the lines that this process reads. For any thread. */
public final class PollerScan implements ScanSource {
    private final List<LinePoller> pollers;
    private final ValueTable table;

    public PollerScan(List<LinePoller> pollers, ValueTable table) {
        this.pollers = List.copyOf(pollers);
        this.table = table;
    }

    @Override
    public int read(int from, int most, Consumer<ScanRow> row) {
        List<ScanRow> rows = pollers.stream()
                .flatMap(poller -> new LineScan(poller, table).rows().stream())
                .toList();
        rows.stream().skip(from).limit(most).forEach(row);
        return rows.size();
    }

    @Override
    public void close() {
        // The pollers are their owner's.
    }
}
