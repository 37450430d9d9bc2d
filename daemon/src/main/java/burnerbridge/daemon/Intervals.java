package burnerbridge.daemon;

import java.time.Duration;

/** Intervals as the point list has them: {@code 500 ms}, {@code 2 s}, {@code 1 min}, {@code 1 h}. */
final class Intervals {
    private Intervals() {}

    static String text(Duration interval) {
        long millis = interval.toMillis();
        if (millis > 0 && millis % 3_600_000 == 0) {
            return millis / 3_600_000 + " h";
        }
        if (millis > 0 && millis % 60_000 == 0) {
            return millis / 60_000 + " min";
        }
        return millis % 1_000 == 0 ? millis / 1_000 + " s" : millis + " ms";
    }
}
