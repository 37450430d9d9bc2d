package burnerbridge.model;

import java.time.Instant;

/** The machine's clocks, for tests with sockets. */
public final class RunningClock implements BridgeClock {
    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        return new Stamp(System.nanoTime(), Instant.now(), true);
    }
}
