package burnerbridge.benchmark.lines;

import java.time.Duration;

/**
 * What the plant is asked for.
 *
 * @param lines each with one controller
 * @param points of each controller, all of them read every {@link #EVERY}
 * @param reads by which they are fetched, each the same number of them; between two reads lies an address that the
 *     list does not name
 */
public record Load(int lines, int points, int reads) {
    static final Duration EVERY = Duration.ofSeconds(1);

    public Load {
        if (lines < 1 || reads < 1 || points < reads || points % reads != 0 || points / reads > 125) {
            throw new IllegalArgumentException(
                    "at least one line, and 1 to 125 points in each read, all of the same number (was " + lines
                            + " lines, " + points + " points, " + reads + " reads)");
        }
    }

    int pointsOfARead() {
        return points / reads;
    }

    /** The address of a point, from 0 on. */
    int address(int point) {
        return point + point / pointsOfARead();
    }

    /** The read, from 0 on, in which an address is. */
    int read(int address) {
        return address / (pointsOfARead() + 1);
    }

    /** How many reads a second are asked of the bridge. */
    int readsASecond() {
        return lines * reads;
    }

    /** Whether it is what the aims of memory and processor time are for. */
    boolean isAimedAt() {
        return lines == 1000 && points == 100 && reads == 1;
    }

    String text() {
        return lines + " TCP lines, a controller each, " + points + " points every second, "
                + (reads == 1 ? "in one read" : "in " + reads + " reads");
    }
}
