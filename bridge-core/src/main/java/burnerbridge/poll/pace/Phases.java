package burnerbridge.poll.pace;

import java.time.Duration;
import java.util.Collection;

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

    /**
     * A turn for one more read, in the middle of the widest gap between those of the others.
     *
     * @param turns a tick of a turn of each read of the interval
     * @return a tick at or after now
     */
    public static long between(Duration every, Collection<Long> turns, long now) {
        long period = every.toNanos();
        long[] phases = turns.stream()
                .mapToLong(turn -> Math.floorMod(turn - now, period))
                .sorted()
                .toArray();
        long widest = 0;
        long middle = 0;
        for (int i = 0; i < phases.length; i++) {
            long next = i + 1 < phases.length ? phases[i + 1] : phases[0] + period;
            if (next - phases[i] > widest) {
                widest = next - phases[i];
                middle = phases[i] + widest / 2;
            }
        }
        return now + middle % period;
    }
}
