package burnerbridge.simulator.demo;

import burnerbridge.simulator.plant.BurnerState;
import java.io.PrintStream;
import java.time.Instant;
import java.util.List;

/** The table on a terminal, drawn over itself with plain ANSI sequences (ECMA-48). */
final class RedrawnScreen implements Screen {
    private static final String ESCAPE = "\u001b[";
    private static final String HIDE_CURSOR = ESCAPE + "?25l";
    private static final String SHOW_CURSOR = ESCAPE + "?25h";
    /** Lines that are too long for the window end at its edge, so that their number stays known. */
    private static final String NO_WRAP = ESCAPE + "?7l";

    private static final String WRAP = ESCAPE + "?7h";
    private static final String CLEAR_REST = ESCAPE + "K";

    private final PrintStream out;
    private final LiveTable table;
    private int drawn;

    RedrawnScreen(PrintStream out, LiveTable table) {
        this.out = out;
        this.table = table;
    }

    @Override
    public void show(BurnerState state, Instant now) {
        List<String> lines = table.lines(state, now);
        out.print(beginning() + String.join(CLEAR_REST + "\n", lines) + CLEAR_REST);
        out.flush();
        drawn = lines.size();
    }

    private String beginning() {
        return drawn == 0 ? HIDE_CURSOR + NO_WRAP : "\r" + ESCAPE + (drawn - 1) + "A";
    }

    @Override
    public void close() {
        if (drawn > 0) {
            out.println(WRAP + SHOW_CURSOR);
            out.flush();
            drawn = 0;
        }
    }
}
