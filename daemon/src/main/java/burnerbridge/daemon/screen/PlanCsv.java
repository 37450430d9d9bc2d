package burnerbridge.daemon.screen;

import burnerbridge.scan.ScanJson;
import burnerbridge.scan.ScanRow;
import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The read plan as CSV: a row a line, which has no controller, and a row a controller and interval. */
public final class PlanCsv {
    public static final String HEAD = "line,controller,every-seconds,achieved-seconds,reads,predicted-scan-seconds,"
            + "measured-scan-seconds,predicted-load,measured-load,planned-turnaround-seconds,"
            + "learned-turnaround-seconds,left-out,requests,link,detail,refused";

    private PlanCsv() {}

    public static String line(ScanRow row) {
        return CsvCells.line(
                row instanceof ScanRow.Controller controller ? cells(controller) : cells((ScanRow.Line) row));
    }

    private static List<String> cells(ScanRow.Line line) {
        return List.of(
                line.line(),
                "",
                "",
                "",
                Integer.toString(line.reads()),
                ScanJson.seconds(line.scan()),
                "",
                ScanJson.share(line.load()),
                line.measuredLoad() == null ? "" : ScanJson.share(line.measuredLoad()),
                "",
                "",
                "",
                "",
                "",
                "",
                "");
    }

    private static List<String> cells(ScanRow.Controller row) {
        return List.of(
                row.line(),
                row.controller(),
                seconds(row.every()),
                seconds(row.achieved()),
                Integer.toString(row.reads()),
                seconds(row.scan()),
                seconds(row.measuredScan()),
                ScanJson.share(row.load()),
                "",
                seconds(row.turnaround()),
                seconds(row.learned()),
                Long.toString(row.leftOut()),
                Long.toString(row.requests()),
                row.link(),
                row.detail(),
                String.join(" ", row.refused())
                        + (row.refusedCount() > row.refused().size() ? " …" : ""));
    }

    private static String seconds(@Nullable Duration duration) {
        return duration == null ? "" : ScanJson.seconds(duration);
    }
}
