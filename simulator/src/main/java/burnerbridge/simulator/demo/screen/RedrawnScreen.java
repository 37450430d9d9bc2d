package burnerbridge.simulator.demo.screen;

import java.io.PrintStream;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/** The live view on a terminal, drawn over itself with plain ANSI sequences (ECMA-48). */
final class RedrawnScreen implements Screen {
    private static final String ESCAPE = "\u001b[";
    private static final String HIDE_CURSOR = ESCAPE + "?25l";
    private static final String SHOW_CURSOR = ESCAPE + "?25h";
    private static final String CLEAR_LINE = ESCAPE + "K";
    private static final String CLEAR_BELOW = ESCAPE + "J";

    private final PrintStream out;
    private final LiveView view;
    private final Supplier<Size> size;
    private final boolean colours;
    private int drawn;
    private Size drawnFor = Size.USUAL;

    RedrawnScreen(PrintStream out, LiveView view, Supplier<Size> size, boolean colours) {
        this.out = out;
        this.view = view;
        this.size = size;
        this.colours = colours;
    }

    @Override
    public void open(String text) {
        wipe();
        out.println(text);
        out.flush();
    }

    @Override
    public void show(Scene scene) {
        Size now = size.get();
        if (!now.equals(drawnFor)) {
            // After a change of its size nobody knows where a terminal has put what it showed.
            drawn = 0;
            drawnFor = now;
        }
        List<Line> lines = view.lines(scene, now);
        out.print(lines.stream()
                .map(line -> line.written(now.columns() - 1, colours))
                .collect(Collectors.joining(CLEAR_LINE + "\n", beginning(), CLEAR_LINE + CLEAR_BELOW)));
        out.flush();
        drawn = lines.size();
    }

    private String beginning() {
        return drawn == 0 ? HIDE_CURSOR : up();
    }

    private String up() {
        return drawn > 1 ? "\r" + ESCAPE + (drawn - 1) + "A" : "\r";
    }

    private void wipe() {
        if (drawn > 0) {
            out.print(up() + CLEAR_BELOW + SHOW_CURSOR);
            drawn = 0;
        }
    }

    /** What was shown last stays. */
    @Override
    public void close() {
        if (drawn > 0) {
            out.println(SHOW_CURSOR);
            out.flush();
            drawn = 0;
        }
    }
}
