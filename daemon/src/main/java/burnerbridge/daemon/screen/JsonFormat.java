package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.control.JsonLine;
import burnerbridge.values.PointRow;
import burnerbridge.values.Query;
import burnerbridge.values.RowJson;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.PrintWriter;

/** One JSON object; the points in an array, each on a line of its own. */
public final class JsonFormat implements RowFormat {
    private final String head;

    /**
     * @param site its name
     * @param source where the rows come from, for people
     */
    public JsonFormat(String site, String source) {
        String members = JsonLine.object(json -> {
            json.writeStringProperty("site", site);
            json.writeStringProperty("source", source);
        });
        this.head = members.substring(0, members.length() - 1);
    }

    @Override
    public Summary print(RowSource source, Query query, PrintWriter out) throws ControlException {
        out.print(head + ",\"points\":[");
        String[] before = {"\n"};
        Summary summary = source.read(query, row -> {
            out.print(before[0] + json(row));
            before[0] = ",\n";
        });
        out.println("\n],\"at\":\"" + RowJson.time(summary.at()) + "\"}");
        return summary;
    }

    private static String json(PointRow row) {
        return JsonLine.object(json -> RowJson.write(json, row));
    }
}
