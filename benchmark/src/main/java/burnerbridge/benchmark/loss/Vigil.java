package burnerbridge.benchmark.loss;

import burnerbridge.benchmark.measure.WatchedTransport;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Notes when each unit answered, and how long the line waited for those that did not. */
final class Vigil extends WatchedTransport {
    private final BridgeClock clock;
    private final Map<Integer, Long> answeredAt = new HashMap<>();
    private final List<Double> gaps = new ArrayList<>();
    private long waited;

    Vigil(LineTransport line, BridgeClock clock) {
        super(line);
        this.clock = clock;
    }

    /** Forgets what was seen, but not when each unit answered last. */
    void begin() {
        gaps.clear();
        waited = 0;
    }

    /** Between two answers of the same unit, in milliseconds. */
    double[] gaps() {
        return gaps.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** How long was waited in vain, in nanoseconds. */
    long waited() {
        return waited;
    }

    boolean hasAnsweredSince(int unit, long tick) {
        Long last = answeredAt.get(unit);
        return last != null && last - tick >= 0;
    }

    @Override
    public Outcome read(ReadRequest request) {
        long asked = clock.ticks();
        Outcome outcome = super.read(request);
        long now = clock.ticks();
        if (outcome instanceof Outcome.Answered) {
            Long before = answeredAt.put(request.unit().number(), now);
            if (before != null) {
                gaps.add((now - before) / 1e6);
            }
        } else {
            waited += now - asked;
        }
        return outcome;
    }
}
