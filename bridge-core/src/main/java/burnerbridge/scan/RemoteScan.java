package burnerbridge.scan;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** The rows of a running bridge. */
public final class RemoteScan implements ScanSource {
    private final ControlClient client;

    /** Owns the client from now on. */
    public RemoteScan(ControlClient client) {
        this.client = client;
    }

    @Override
    public int read(int from, int most, Consumer<ScanRow> row) throws ControlException {
        int taken = 0;
        Part part;
        do {
            part = part(from + taken, Math.min(ScanHandler.MOST, most - taken));
            part.rows.forEach(row);
            taken += part.rows.size();
        } while (!part.rows.isEmpty() && taken < most && from + taken < part.all());
        return part.all();
    }

    private Part part(int from, int most) throws ControlException {
        Part part = new Part();
        try {
            client.ask(
                    ScanHandler.NAME,
                    json -> {
                        json.writeNumberProperty("from", from);
                        json.writeNumberProperty("most", most);
                    },
                    part::line);
            part.all();
            return part;
        } catch (IllegalArgumentException | ArithmeticException e) {
            throw new ControlException("the running bridge answers what this program does not know: " + e.getMessage());
        }
    }

    /** One reply while it comes. */
    private static final class Part {
        final List<ScanRow> rows = new ArrayList<>();
        private int all = -1;

        void line(Map<String, @Nullable Object> line) {
            if (all < 0) {
                all = ScanJson.count(line, "rows");
            } else {
                rows.add(ScanJson.read(line));
            }
        }

        int all() {
            if (all < 0) {
                throw new IllegalArgumentException("an empty reply");
            }
            return all;
        }
    }

    @Override
    public void close() {
        client.close();
    }
}
