package burnerbridge.poll.pace;

import java.util.OptionalDouble;

/** How much of the last minute something took: of sixty to seventy seconds, in steps of ten. */
final class Usage {
    private static final long STEP = 10_000_000_000L;
    private static final int STEPS = 7;

    private final long since;
    private final long[] spent = new long[STEPS];
    private long step;

    Usage(long now) {
        this.since = now;
    }

    /** It took some nanoseconds until now. */
    void add(long nanos, long now) {
        advance(now);
        spent[(int) (step % STEPS)] += nanos;
    }

    private void advance(long now) {
        long next = (now - since) / STEP;
        for (long begun = Math.max(step + 1, next - STEPS + 1); begun <= next; begun++) {
            spent[(int) (begun % STEPS)] = 0;
        }
        step = Math.max(step, next);
    }

    /** As a part of 1; empty before any time has passed. */
    OptionalDouble share(long now) {
        advance(now);
        long from = Math.max(0, step - STEPS + 1) * STEP;
        long elapsed = now - since - from;
        long all = 0;
        for (long some : spent) {
            all += some;
        }
        return elapsed <= 0 ? OptionalDouble.empty() : OptionalDouble.of((double) all / elapsed);
    }
}
