package burnerbridge.benchmark.lines;

import java.time.Duration;

/**
 * What the plant is asked for.
 *
 * @param lines each with one controller
 * @param points of each controller, all of them read every {@link #EVERY}
 * @param together whether one read fetches them all, or each is a read of its own
 */
public record Load(int lines, int points, boolean together) {
    static final Duration EVERY = Duration.ofSeconds(1);

    public Load {
        if (lines < 1 || points < 1 || points > 125) {
            throw new IllegalArgumentException("at least one line, and 1 to 125 points (was " + this + ")");
        }
    }

    int readsOfALine() {
        return together ? 1 : points;
    }

    /** How many reads a second are asked of the bridge. */
    int readsASecond() {
        return lines * readsOfALine();
    }

    String text() {
        return lines + " TCP lines, a controller each, " + points + " points every second, "
                + (together ? "in one read" : "each in a read of its own");
    }
}
