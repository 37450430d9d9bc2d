package burnerbridge.values;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Quality;
import java.time.DateTimeException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/**
 * The rows of a running bridge. Remembers the last ones, so that the same question again fetches only what
 * changed; ages go on by this process's clock.
 */
public final class RemoteRows implements RowSource {
    private final ControlClient client;
    private final BridgeClock clock;
    private final List<@Nullable Arrived> window = new ArrayList<>();
    private @Nullable Query lastQuery;
    private int lastNumber;

    private record Arrived(PointRow row, long ticks) {
        PointRow at(long now) {
            return row.older(Duration.ofNanos(Math.max(0, now - ticks)));
        }
    }

    /** Owns the client from now on. */
    public RemoteRows(ControlClient client, BridgeClock clock) {
        this.client = client;
        this.clock = clock;
    }

    @Override
    public Summary read(Query query, Consumer<PointRow> row) throws ControlException {
        int since = query.equals(lastQuery) ? lastNumber : 0;
        if (since == 0) {
            window.clear();
        }
        Reading reading = new Reading();
        try {
            client.ask(ValuesHandler.NAME, json -> write(json, query, since), reading::line);
            lastQuery = query;
            Summary summary = reading.whole();
            long now = clock.ticks();
            for (Arrived arrived : window) {
                if (arrived == null) {
                    throw new IllegalArgumentException("a row is missing");
                }
                row.accept(arrived.at(now));
            }
            return summary;
        } catch (IllegalArgumentException | IndexOutOfBoundsException | ArithmeticException | DateTimeException e) {
            throw new ControlException("the running bridge answers what this program does not know: " + e.getMessage());
        }
    }

    private static void write(JsonGenerator json, Query query, int since) {
        texts(json, "points", query.points());
        texts(json, "quality", query.qualities().stream().map(Quality::word).toList());
        json.writeNumberProperty("from", query.from());
        json.writeNumberProperty("most", query.most());
        if (since > 0) {
            json.writeNumberProperty("since", since);
        }
    }

    private static void texts(JsonGenerator json, String name, List<String> texts) {
        json.writeName(name);
        json.writeStartArray();
        texts.forEach(json::writeString);
        json.writeEndArray();
    }

    /** One reply while it comes. */
    private final class Reading {
        private @Nullable Summary summary;

        void line(Map<String, @Nullable Object> line) {
            if (summary == null) {
                summary = SummaryJson.read(line);
                lastNumber = SummaryJson.number(line, "table");
                resize(SummaryJson.number(line, "size"));
                return;
            }
            window.set(SummaryJson.number(line, "position"), new Arrived(RowJson.read(line), clock.ticks()));
        }

        private void resize(int size) {
            while (window.size() > size) {
                window.remove(window.size() - 1);
            }
            while (window.size() < size) {
                window.add(null);
            }
        }

        Summary whole() {
            if (summary == null) {
                throw new IllegalArgumentException("an empty reply");
            }
            return summary;
        }
    }

    @Override
    public void close() {
        client.close();
    }
}
