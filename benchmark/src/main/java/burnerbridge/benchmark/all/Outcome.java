package burnerbridge.benchmark.all;

import burnerbridge.benchmark.measure.Figure;
import java.time.Duration;
import java.util.List;

/**
 * How one measurement went.
 *
 * @param load average before it
 * @param busyShare of all processors, of other programs, just before it
 * @param trouble empty where it ended well
 * @param figures what it had measured, until it failed where it did
 */
record Outcome(
        Measurement measurement,
        List<String> arguments,
        String load,
        double busyShare,
        Duration took,
        String trouble,
        List<Figure> figures) {

    Outcome {
        figures = List.copyOf(figures);
    }

    boolean isWell() {
        return trouble.isEmpty();
    }
}
