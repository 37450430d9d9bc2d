package burnerbridge.benchmark.pace;

import burnerbridge.benchmark.measure.WatchedTransport;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Notes when the same request is asked again: then one scan is over and the next begins. */
final class ScanTimer extends WatchedTransport {
    private final BridgeClock clock;
    private final List<Long> begins = new ArrayList<>();
    private @Nullable ReadRequest first;

    ScanTimer(LineTransport line, BridgeClock clock) {
        super(line);
        this.clock = clock;
    }

    /** How many scans are over. */
    int scans() {
        return Math.max(0, begins.size() - 1);
    }

    /** How long each took, in milliseconds. */
    double[] millis() {
        double[] millis = new double[scans()];
        for (int i = 0; i < millis.length; i++) {
            millis[i] = (begins.get(i + 1) - begins.get(i)) / 1e6;
        }
        return millis;
    }

    @Override
    public Outcome read(ReadRequest request) {
        first = first == null ? request : first;
        if (request.equals(first)) {
            begins.add(clock.ticks());
        }
        Outcome outcome = super.read(request);
        if (!(outcome instanceof Outcome.Answered)) {
            throw new IllegalStateException("a read failed: " + outcome);
        }
        return outcome;
    }
}
