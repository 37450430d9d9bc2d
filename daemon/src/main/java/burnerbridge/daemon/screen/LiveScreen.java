package burnerbridge.daemon.screen;

import burnerbridge.control.ControlException;
import burnerbridge.model.BridgeClock;
import java.io.InputStream;
import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Draws a page on a terminal again and again at a steady pace until a key ends it. */
final class LiveScreen {
    private final Page page;
    private final BridgeClock clock;
    private final Duration every;

    /** What is drawn. */
    interface Page {
        /** What fits into a terminal of a size. */
        List<ScreenLine> lines(Terminal.Size size) throws ControlException;

        /** A key other than {@link Key#QUIT} was pressed. */
        void move(Key key, Terminal.Size size);
    }

    LiveScreen(Page page, BridgeClock clock, Duration every) {
        this.page = page;
        this.clock = clock;
        this.every = every;
    }

    void show(Terminal terminal, InputStream in) throws ControlException, InterruptedException {
        Keys keys = new Keys(in);
        terminal.open();
        keys.start();
        Drawing drawing = new Drawing(terminal.colours());
        Terminal.Size size = terminal.size();
        @Nullable Key key = null;
        while (key != Key.QUIT) {
            long due = clock.ticks() + every.toNanos();
            Terminal.Size now = terminal.size();
            if (!now.equals(size)) {
                size = now;
                drawing.forget();
            }
            terminal.draw(drawing.to(page.lines(size)));
            key = keys.await(due - clock.ticks());
            if (key != null) {
                page.move(key, size);
            }
        }
    }

    /** The first row that is shown after a key, from 0. */
    static int moved(int from, Key key, int page) {
        int by = switch (key) {
            case NEXT_PAGE -> page;
            case PAGE_BEFORE -> -page;
            case NEXT_LINE -> 1;
            case LINE_BEFORE -> -1;
            case QUIT -> 0;
        };
        return Math.max(0, from + by);
    }
}
