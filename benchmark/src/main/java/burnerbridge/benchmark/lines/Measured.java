package burnerbridge.benchmark.lines;

import java.time.Duration;

/**
 * One run of the daemon, after it was warm.
 *
 * @param length how long was watched
 * @param processorTime of the daemon meanwhile
 * @param plantTime of our own process meanwhile, which serves
 */
record Measured(Arrivals.Seen seen, Duration length, Duration processorTime, Duration plantTime, ProcessState state) {

    double readsASecond() {
        return seen.reads() / seconds(length);
    }

    /** In percent of one processor. */
    double processorShare() {
        return 100 * seconds(processorTime) / seconds(length);
    }

    double plantShare() {
        return 100 * seconds(plantTime) / seconds(length);
    }

    double residentMib() {
        return state.residentKib() / 1024.0;
    }

    private static double seconds(Duration duration) {
        return duration.toNanos() / 1e9;
    }
}
