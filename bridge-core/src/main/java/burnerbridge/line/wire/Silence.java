package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import java.time.Duration;
import java.util.function.LongConsumer;

/** Keeps the silence that separates one frame from the next on a serial line. */
public final class Silence {
    private final long least;
    private final BridgeClock clock;
    private final LongConsumer pause;
    private long since;

    /** @param pause lets at most so many nanoseconds pass */
    public Silence(Duration least, BridgeClock clock, LongConsumer pause) {
        this.least = least.toNanos();
        this.clock = clock;
        this.pause = pause;
        this.since = clock.ticks();
    }

    /** Something was on the line until now. */
    public void begins() {
        since = clock.ticks();
    }

    /** Returns when the line has been silent for long enough. */
    public void await() {
        long left = since + least - clock.ticks();
        while (left > 0) {
            pause.accept(left);
            left = since + least - clock.ticks();
        }
    }
}
