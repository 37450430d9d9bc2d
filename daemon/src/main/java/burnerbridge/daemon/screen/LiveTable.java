package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.model.BridgeClock;
import burnerbridge.values.PointRow;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** The rows of a query on a terminal, drawn again at a steady pace until somebody has seen enough. */
public final class LiveTable implements LiveScreen.Page {
    /** Title, counts, heads and the line of keys. */
    private static final int AROUND = 4;

    private static final int MOST_DOWN = 2;

    private final RowSource source;
    private final Query query;
    private final RowTable table;
    private final Title title;
    private final List<String> notes;
    private final BridgeClock clock;
    private final Duration every;
    private int from;

    /** The first line, asked for at each drawing: the site and where the rows come from. */
    public interface Title {
        String text() throws ControlException;
    }

    /**
     * @param notes lines that stand between the title and the rows
     * @param every how often it is drawn again
     */
    public LiveTable(
            RowSource source,
            Query query,
            RowTable table,
            Title title,
            List<String> notes,
            BridgeClock clock,
            Duration every) {
        this.source = source;
        this.query = query;
        this.table = table;
        this.title = title;
        this.notes = List.copyOf(notes);
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
        from = LiveScreen.moved(from, key, Math.max(1, size.height() - AROUND - notes.size() - 1));
    }

    @Override
    public List<ScreenLine> lines(Terminal.Size size) throws ControlException {
        List<PointRow> rows = new ArrayList<>();
        int room = Math.max(1, size.height() - AROUND - notes.size());
        Summary summary = source.read(query.window(from, room), rows::add);
        if (rows.isEmpty() && from > 0) {
            from = Math.max(0, summary.rows() - room);
            summary = source.read(query.window(from, room), rows::add);
        }
        rows.forEach(table::make);
        List<String> down =
                summary.down().subList(0, Math.min(MOST_DOWN, summary.down().size()));
        List<PointRow> fitting = rows.subList(0, Math.min(rows.size(), Math.max(1, room - down.size())));
        List<ScreenLine> lines = new ArrayList<>();
        lines.add(plain(title.text(), size));
        notes.forEach(note -> lines.add(plain(note, size)));
        lines.add(plain(counts(summary), size));
        down.forEach(words -> lines.add(plain("  " + words, size)));
        lines.add(plain(table.head(size.width()), size));
        fitting.forEach(row -> lines.add(table.line(row, size.width())));
        while (lines.size() < size.height() - 1) {
            lines.add(ScreenLine.plain(""));
        }
        lines.add(plain(place(fitting.size(), summary), size));
        return lines.subList(0, Math.min(lines.size(), size.height()));
    }

    private static ScreenLine plain(String text, Terminal.Size size) {
        return ScreenLine.plain(TextWidth.cut(TextWidth.harmless(text), size.width()));
    }

    /** All chosen points by quality, in words. */
    static String counts(Summary summary) {
        return summary.points() + (summary.points() == 1 ? " point: " : " points: ") + summary.good() + " good, "
                + summary.uncertain() + " uncertain, "
                + summary.stale() + " stale, " + summary.bad() + " bad"
                + (summary.downCount() == 0 ? "" : "; not answering: " + summary.downCount());
    }

    private String place(int shown, Summary summary) {
        String rows = summary.rows() == 0
                ? "no row"
                : shown == summary.rows()
                        ? "all " + shown + " rows"
                        : "rows " + (from + 1) + " to " + (from + shown) + " of " + summary.rows();
        return rows + " | q ends" + (shown < summary.rows() ? ", space and b turn the page, arrows move" : "");
    }
}
