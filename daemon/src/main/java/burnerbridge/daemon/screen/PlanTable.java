package burnerbridge.daemon.screen;

import burnerbridge.model.Quality;
import burnerbridge.scan.ScanRow;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The read plan in aligned columns: a line's own row as a sentence, then its controllers and intervals, and below each
 * what is wrong with it. The columns never shrink again; where the width is not enough the names give way.
 */
public final class PlanTable {
    private static final String[] TITLES = {
        "controller", "every", "achieved", "reads", "scan ms", "measured", "turnaround", "left out", "requests"
    };
    private static final int NAME = 0;
    private static final int ACHIEVED = 2;
    private static final int LEAST_NAME = 8;
    private static final int MOST_NAME = 40;
    /** One part in so many more than the interval is late. */
    private static final int LATE_ONE_IN = 20;

    private final int[] widths = Arrays.stream(TITLES).mapToInt(String::length).toArray();

    /** Makes room for a row. */
    public void make(ScanRow row) {
        if (row instanceof ScanRow.Controller controller) {
            String[] cells = cells(controller);
            for (int i = 0; i < cells.length; i++) {
                int most = i == NAME ? MOST_NAME : Integer.MAX_VALUE;
                widths[i] = Math.max(widths[i], Math.min(most, TextWidth.of(cells[i])));
            }
        }
    }

    /** The titles, at most so wide. */
    public String head(int width) {
        return line(TITLES, width).text();
    }

    /** A row as plain text, on one line or more, each at most so wide. */
    public List<String> text(ScanRow row, int width) {
        return lines(row, width).stream().map(ScreenLine::text).toList();
    }

    List<ScreenLine> lines(ScanRow row, int width) {
        List<ScreenLine> lines = new ArrayList<>();
        if (row instanceof ScanRow.Line line) {
            lines.add(plain(sentence(line), width));
        } else if (row instanceof ScanRow.Controller controller) {
            ScreenLine cells = line(cells(controller), width);
            lines.add(new ScreenLine(cells.text(), cells.from(), cells.to(), quality(controller)));
            if (controller.isDown()) {
                lines.add(plain("  " + controller.link() + ": " + controller.detail(), width));
            }
            if (controller.refusedCount() > 0) {
                lines.add(plain("  refused: " + refused(controller), width));
            }
        }
        return lines;
    }

    private static ScreenLine plain(String text, int width) {
        return ScreenLine.plain(TextWidth.cut(TextWidth.harmless(text), width));
    }

    private static String sentence(ScanRow.Line line) {
        return "line " + line.line() + ": " + line.reads() + (line.reads() == 1 ? " read" : " reads") + ", load "
                + percent(line.load()) + " predicted, "
                + (line.measuredLoad() == null ? "none" : percent(line.measuredLoad())) + " measured; scan "
                + millis(line.scan()) + " ms";
    }

    private static String refused(ScanRow.Controller row) {
        int more = row.refusedCount() - row.refused().size();
        return String.join(", ", row.refused()) + (more == 0 ? "" : " and " + more + " more");
    }

    private static String[] cells(ScanRow.Controller row) {
        return new String[] {
            TextWidth.harmless(row.controller()),
            interval(row.every()).replaceFirst("\\.0+ ", " "),
            row.isDown() ? "dead" : row.achieved() == null ? "-" : interval(row.achieved()),
            Integer.toString(row.reads()),
            millis(row.scan()),
            row.measuredScan() == null ? "-" : millis(row.measuredScan()),
            row.learned() == null ? "(" + millis(row.turnaround()) + ")" : millis(row.learned()),
            Long.toString(row.leftOut()),
            Long.toString(row.requests())
        };
    }

    private static @Nullable Quality quality(ScanRow.Controller row) {
        if (row.isDown()) {
            return Quality.BAD;
        }
        if (row.achieved() == null) {
            return null;
        }
        Duration late = row.every().plus(row.every().dividedBy(LATE_ONE_IN));
        return row.achieved().compareTo(late) > 0 ? Quality.UNCERTAIN : Quality.GOOD;
    }

    private ScreenLine line(String[] cells, int width) {
        int over = Arrays.stream(widths).sum() + widths.length - 1 - width;
        StringBuilder line = new StringBuilder();
        int from = 0;
        for (int i = 0; i < cells.length; i++) {
            int own = i == NAME ? Math.max(LEAST_NAME, widths[i] - Math.max(0, over)) : widths[i];
            line.append(i == 0 ? "" : " ").append(TextWidth.fit(cells[i], own, i != NAME));
            from = i == ACHIEVED ? line.length() - cells[i].length() : from;
        }
        String cut = TextWidth.cut(line.toString().stripTrailing(), width);
        int to = Math.min(cut.length(), from + cells[ACHIEVED].length());
        return new ScreenLine(cut, Math.min(from, cut.length()), to, null);
    }

    private static String percent(double share) {
        return rounded(BigDecimal.valueOf(100 * share), 1) + " %";
    }

    private static String millis(Duration time) {
        return rounded(BigDecimal.valueOf(time.toNanos(), 6), 1);
    }

    /** Seconds with two digits, minutes and hours as they are. */
    private static String interval(Duration time) {
        if (time.toMinutes() >= 2) {
            return time.toHours() >= 2
                    ? rounded(BigDecimal.valueOf(time.toSeconds() / 3600.0), 2) + " h"
                    : rounded(BigDecimal.valueOf(time.toSeconds() / 60.0), 2) + " min";
        }
        return rounded(BigDecimal.valueOf(time.toMillis(), 3), 2) + " s";
    }

    private static String rounded(BigDecimal number, int digits) {
        return number.setScale(digits, RoundingMode.HALF_UP).toPlainString();
    }
}
