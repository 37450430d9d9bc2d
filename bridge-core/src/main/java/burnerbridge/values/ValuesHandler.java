package burnerbridge.values;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestException;
import burnerbridge.control.RequestHandler;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Quality;
import burnerbridge.table.ValueTable;
import burnerbridge.values.Snapshot.Seen;
import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Answers {@code {"ask":"values","points":["boiler-1"],"quality":["bad"],"from":0,"most":20,"since":7}}; all
 * members but the first may be missing. The reply begins with a summary and its number as {@code "table"};
 * then a line for each row, with its {@code "position"} in the part that was asked for. With {@code since},
 * the number of the last reply on this connection to the same question, only the rows that were read anew,
 * or have moved, are sent.
 */
public final class ValuesHandler implements RequestHandler {
    public static final String NAME = "values";

    private final ValueTable table;
    private final AskedFor.Source asked;
    private final BridgeClock clock;
    private @Nullable Query lastQuery;
    private List<Seen> lastWindow = List.of();
    private int lastNumber;

    public ValuesHandler(ValueTable table, AskedFor.Source asked, BridgeClock clock) {
        this.table = table;
        this.asked = asked;
        this.clock = clock;
    }

    @Override
    public void answer(Request request, Reply reply) throws RequestException, IOException {
        Query query = query(request);
        int since = request.count("since", 0);
        List<Seen> known = since > 0 && since == lastNumber && query.equals(lastQuery) ? lastWindow : List.of();
        Snapshot snapshot = Snapshot.take(table, asked, query, clock.now());
        int number = lastNumber + 1;
        Summary summary = snapshot.summary();
        reply.line(json -> {
            json.writeNumberProperty("table", number);
            json.writeNumberProperty("size", snapshot.window().size());
            SummaryJson.write(json, summary);
        });
        for (int i = 0; i < snapshot.window().size(); i++) {
            Seen seen = snapshot.window().get(i);
            if (i >= known.size() || !known.get(i).isSameAs(seen)) {
                send(i, seen, snapshot, reply);
            }
        }
        lastQuery = query;
        lastWindow = snapshot.window();
        lastNumber = number;
    }

    private static void send(int position, Seen seen, Snapshot snapshot, Reply reply) throws IOException {
        PointRow row = seen.row(snapshot.now());
        reply.line(json -> {
            json.writeNumberProperty("position", position);
            RowJson.write(json, row);
        });
    }

    private static Query query(Request request) throws RequestException {
        try {
            Set<Quality> qualities = new HashSet<>();
            for (String word : request.texts("quality")) {
                qualities.add(Quality.valueOf(word.toUpperCase(Locale.ROOT)));
            }
            return new Query(
                    request.texts("points"),
                    qualities,
                    request.count("from", 0),
                    request.count("most", Integer.MAX_VALUE));
        } catch (IllegalArgumentException e) {
            throw new RequestException("bad-argument", String.valueOf(e.getMessage()));
        }
    }
}
