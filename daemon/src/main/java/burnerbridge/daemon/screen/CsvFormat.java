package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.control.JsonLine;
import burnerbridge.model.Reason;
import burnerbridge.values.AskedFor;
import burnerbridge.values.PointRow;
import burnerbridge.values.Query;
import burnerbridge.values.RowJson;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.PrintWriter;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** CSV, a row a point: exact values, registers, quality, times. */
public final class CsvFormat implements RowFormat {
    private static final String HEAD = "controller,point,table,address,wire,registers,value,text,unit,quality,reason,"
            + "exception,read-at,age-seconds,last-good,last-good-read-at,asked-state,asked-slot,asked-value,asked-by,"
            + "asked-left-seconds,asked-why,writes-left";

    @Override
    public Summary print(RowSource source, Query query, PrintWriter out) throws ControlException {
        out.println(HEAD);
        return source.read(query, row -> out.println(line(row)));
    }

    static String line(PointRow row) {
        List<String> cells = new ArrayList<>(List.of(
                row.controller(),
                row.point(),
                row.table(),
                row.address(),
                row.wire(),
                row.raw() == null ? "" : row.raw(),
                value(row.value()),
                row.value() == null ? "" : row.value().text(),
                row.unit(),
                row.quality().word(),
                row.reason() == Reason.NONE ? "" : row.reason().word(),
                row.exceptionCode() == 0 ? "" : Integer.toString(row.exceptionCode()),
                time(row.readAt()),
                row.age() == null ? "" : RowJson.seconds(row.age()),
                value(row.lastGood()),
                time(row.lastGoodReadAt())));
        cells.addAll(asked(row.asked()));
        return CsvCells.line(cells);
    }

    private static List<String> asked(@Nullable AskedFor asked) {
        return asked == null
                ? List.of("", "", "", "", "", "", "")
                : List.of(
                        asked.state().word(),
                        asked.slot() == 0 ? "" : Integer.toString(asked.slot()),
                        value(asked.value()),
                        asked.by(),
                        asked.left() == null ? "" : RowJson.seconds(asked.left()),
                        asked.why(),
                        asked.writesLeft().isPresent()
                                ? Long.toString(asked.writesLeft().getAsLong())
                                : "");
    }

    /** A state is its number here; its text has a column of its own. */
    private static String value(PointRow.@Nullable Shown shown) {
        if (shown == null) {
            return "";
        }
        Object json = shown.json() instanceof Map<?, ?> state ? state.get("number") : shown.json();
        return json instanceof String text ? text : JsonLine.value(json);
    }

    private static String time(@Nullable Instant moment) {
        return moment == null ? "" : RowJson.time(moment);
    }
}
