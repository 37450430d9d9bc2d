package burnerbridge.poll.pace;

import java.time.Duration;

/** Where in their interval reads are made, so that they are spread evenly over a line and over all lines. */
public final class Phases {
    /** Multiples of it fill the time between 0 and 1 evenly, however many there are. */
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    private Phases() {}

    /**
     * The phase of one read of a line, less than the interval.
     *
     * @param rank its place among the line's reads of this interval, from 0
     * @param of how many those are
     * @param lineNumber differs from line to line
     */
    public static Duration of(Duration every, int rank, long of, int lineNumber) {
        double ofLine = lineNumber * GOLDEN;
        double place = (rank + ofLine - Math.floor(ofLine)) / of;
        return Duration.ofNanos((long) (place * every.toNanos()));
    }
}
