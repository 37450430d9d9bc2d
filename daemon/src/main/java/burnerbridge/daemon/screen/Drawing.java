package burnerbridge.daemon.screen;

import burnerbridge.model.Quality;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Turns what a screen shows into what it shall show, with as few bytes as is simple: for each line the runs
 * of characters that differ (ECMA-48 sequences).
 */
final class Drawing {
    private static final String ESCAPE = "\u001b[";
    private static final String PLAIN = ESCAPE + "0m";
    private static final String CLEAR_REST = ESCAPE + "K";
    private static final String CLEAR_ALL = ESCAPE + "2J";
    /** Going to another place costs about so many bytes. */
    private static final int NEAR = 8;

    private final boolean colours;
    private List<ScreenLine> shown = List.of();
    private boolean fresh = true;

    Drawing(boolean colours) {
        this.colours = colours;
    }

    /** Nothing of what is on the screen is relied on any more. */
    void forget() {
        shown = List.of();
        fresh = true;
    }

    /** What has to be sent to show these lines from the top. */
    String to(List<ScreenLine> lines) {
        StringBuilder bytes = new StringBuilder(fresh ? CLEAR_ALL : "");
        for (int row = 0; row < Math.max(lines.size(), shown.size()); row++) {
            line(bytes, row, line(shown, row), line(lines, row));
        }
        shown = List.copyOf(lines);
        fresh = false;
        return bytes.toString();
    }

    private static ScreenLine line(List<ScreenLine> lines, int row) {
        return row < lines.size() ? lines.get(row) : ScreenLine.plain("");
    }

    private void line(StringBuilder bytes, int row, ScreenLine before, ScreenLine after) {
        if (before.equals(after)) {
            return;
        }
        if (!before.isSimple() || !after.isSimple()) {
            part(bytes, row, after, 0, after.text().length());
            bytes.append(CLEAR_REST);
            return;
        }
        int common = after.text().length();
        for (int[] run : runs(before, after, common)) {
            part(bytes, row, after, run[0], run[1]);
        }
        if (before.text().length() > common) {
            bytes.append(place(row, common)).append(CLEAR_REST);
        }
    }

    private static List<int[]> runs(ScreenLine before, ScreenLine after, int length) {
        List<int[]> runs = new ArrayList<>();
        for (int i = 0; i < length; i++) {
            if (before.charAt(i) == after.charAt(i) && Objects.equals(before.at(i), after.at(i))) {
                continue;
            }
            int[] last = runs.isEmpty() ? null : runs.get(runs.size() - 1);
            if (last != null && i - last[1] < NEAR) {
                last[1] = i + 1;
            } else {
                runs.add(new int[] {i, i + 1});
            }
        }
        return runs;
    }

    private void part(StringBuilder bytes, int row, ScreenLine line, int from, int to) {
        bytes.append(place(row, from));
        @Nullable Quality ink = null;
        for (int i = from; i < to; i++) {
            Quality next = line.at(i);
            if (colours && next != ink) {
                bytes.append(next == null ? PLAIN : colour(next));
                ink = next;
            }
            bytes.append(line.charAt(i));
        }
        bytes.append(ink == null ? "" : PLAIN);
    }

    private static String place(int row, int column) {
        return ESCAPE + (row + 1) + ";" + (column + 1) + "H";
    }

    private static String colour(Quality quality) {
        return ESCAPE
                + switch (quality) {
                    case GOOD -> "32m";
                    case UNCERTAIN, STALE -> "33m";
                    case BAD -> "31m";
                };
    }
}
