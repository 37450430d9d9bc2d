package burnerbridge.line;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.UnitId;
import java.util.HashMap;
import java.util.Map;
import java.util.function.BooleanSupplier;
import java.util.function.LongConsumer;

/** When a request may be sent: after the pause that its unit wants, and with no late reply in its way. */
final class Turns {
    /** No wait is longer than this before it is looked whether the line was closed. */
    private static final long SLICE = 50_000_000;

    private final Doubts doubts;
    private final BridgeClock clock;
    private final LongConsumer pause;
    private final Map<UnitId, Long> ended = new HashMap<>();

    /** @param pause lets at most so many nanoseconds pass */
    Turns(Doubts doubts, BridgeClock clock, LongConsumer pause) {
        this.doubts = doubts;
        this.clock = clock;
        this.pause = pause;
    }

    /** A transaction with a unit is over. */
    void ended(UnitId unit) {
        ended.put(unit, clock.ticks());
    }

    /** The tick from which a request may be sent; not later than now where it may be at once. */
    long readyAt(Request request, long now) {
        Long end = ended.get(request.unit());
        long left = end == null ? 0 : end + request.terms().pause().toNanos() - now;
        return now + Math.max(left, doubts.clearAt(request, now) - now);
    }

    /** Returns when a request may be sent, or the line was closed. */
    void await(Request request, BooleanSupplier isClosed) {
        long now = clock.ticks();
        long left = readyAt(request, now) - now;
        while (left > 0 && !isClosed.getAsBoolean()) {
            pause.accept(Math.min(left, SLICE));
            now = clock.ticks();
            left = readyAt(request, now) - now;
        }
    }
}
