package burnerbridge.daemon.log;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

/** The newest lines of the log. Safe for any number of threads. */
public final class RecentLines {
    static final int MOST = 500;
    /** Longer ones are cut, so that all of them together stay small. */
    static final int LONGEST = 1_000;

    private final Deque<String> lines = new ArrayDeque<>();

    synchronized void add(String line) {
        if (lines.size() == MOST) {
            lines.removeFirst();
        }
        lines.addLast(line.length() <= LONGEST ? line : line.substring(0, LONGEST) + "…");
    }

    /** The oldest first. */
    public synchronized List<String> all() {
        return List.copyOf(lines);
    }
}
