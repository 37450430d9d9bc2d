package burnerbridge.benchmark.memory;

import java.time.Duration;

/**
 * One run that was watched.
 *
 * @param untilAll from its start until something of every point was at a subscriber
 * @param mostBytes of all that is counted, from its start on
 * @param residentKib at the end
 * @param processorShare while it was watched after that, of one processor
 */
record Held(Duration untilAll, long mostBytes, long residentKib, double processorShare) {
    private static final double MIB = 1 << 20;

    double mostMib() {
        return mostBytes / MIB;
    }

    double residentMib() {
        return residentKib / 1024.0;
    }

    double secondsUntilAll() {
        return untilAll.toMillis() / 1e3;
    }
}
