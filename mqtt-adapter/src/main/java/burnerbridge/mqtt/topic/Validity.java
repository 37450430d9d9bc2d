package burnerbridge.mqtt.topic;

import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Stamp;
import java.time.Duration;

/**
 * For how long a message about a point holds, so that no retained one outlives a dead bridge.
 *
 * <p>A reading that will grow old - good, uncertain, or bad because of what was read - holds until the
 * moment at which it turns stale, in whole seconds, rounded down; with less than a second left it is not
 * sent any more. A reading that
 * cannot grow older, because it is stale or nothing was read, is repeated as long as the bridge lives;
 * its message holds for as long as the point's readings may grow old, but at least a minute and at most
 * an hour.
 */
final class Validity {
    private static final long SHORTEST_OF_OLD = 60;
    private static final long LONGEST_OF_OLD = 3600;
    private static final long SECOND = 1_000_000_000L;

    private Validity() {}

    /** Seconds from a tick on; 0 where the reading has less than a second of its allowance left. */
    static long seconds(Reading reading, Duration staleAfter, long nowTicks) {
        Stamp askedAt = reading.askedAt();
        if (askedAt == null || !growsOld(reading)) {
            return Math.min(LONGEST_OF_OLD, Math.max(SHORTEST_OF_OLD, staleAfter.toSeconds()));
        }
        long left = staleAfter.toNanos() - askedAt.ageAt(nowTicks);
        return Math.max(0, left / SECOND);
    }

    /** Whether only a newer reading makes a message hold for longer. */
    static boolean growsOld(Reading reading) {
        return reading.askedAt() != null && reading.quality() != Quality.STALE;
    }
}
