package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.model.BridgeClock;
import burnerbridge.scan.ScanRow;
import burnerbridge.scan.ScanSource;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** The read plan on a terminal, drawn again at a steady pace until somebody has seen enough. */
public final class LivePlan implements LiveScreen.Page {
    /** Title, heads and the line of keys. */
    private static final int AROUND = 3;

    private final ScanSource source;
    private final String title;
    private final BridgeClock clock;
    private final Duration every;
    private final PlanTable table = new PlanTable();
    private int from;
    private int shown;
    private int all;

    /**
     * @param title of the first line: the site and where the rows come from
     * @param every how often it is drawn again
     */
    public LivePlan(ScanSource source, String title, BridgeClock clock, Duration every) {
        this.source = source;
        this.title = title;
        this.clock = clock;
        this.every = every;
    }

    /**
     * Shows until a key ends it.
     *
     * @throws ControlException where the bridge is gone: what stands on the screen would be of the past
     */
    public void show(Terminal terminal, InputStream in) throws ControlException, InterruptedException {
        new LiveScreen(this, clock, every).show(terminal, in);
    }

    @Override
    public void move(Key key, Terminal.Size size) {
        int moved = LiveScreen.moved(from, key, Math.max(1, shown));
        from = moved < all ? moved : from;
    }

    @Override
    public List<ScreenLine> lines(Terminal.Size size) throws ControlException {
        List<ScanRow> rows = new ArrayList<>();
        int room = Math.max(1, size.height() - AROUND);
        all = source.read(from, room, rows::add);
        if (rows.isEmpty() && from > 0) {
            from = Math.max(0, all - 1);
            all = source.read(from, room, rows::add);
        }
        rows.forEach(table::make);
        List<ScreenLine> lines = new ArrayList<>();
        lines.add(ScreenLine.plain(TextWidth.cut(TextWidth.harmless(title), size.width())));
        lines.add(ScreenLine.plain(table.head(size.width())));
        shown = 0;
        for (ScanRow row : rows) {
            List<ScreenLine> more = table.lines(row, size.width());
            if (shown > 0 && lines.size() + more.size() > size.height() - 1) {
                break;
            }
            lines.addAll(more);
            shown++;
        }
        while (lines.size() < size.height() - 1) {
            lines.add(ScreenLine.plain(""));
        }
        lines.add(ScreenLine.plain(TextWidth.cut(place(), size.width())));
        return lines.subList(0, Math.min(lines.size(), size.height()));
    }

    private String place() {
        String rows =
                shown == all ? "all " + all + " rows" : "rows " + (from + 1) + " to " + (from + shown) + " of " + all;
        return rows + " | q ends" + (shown < all ? ", space and b turn the page, arrows move" : "");
    }
}
