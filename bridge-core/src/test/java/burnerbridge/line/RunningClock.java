package burnerbridge.line;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Instant;

/** The machine's clock, for tests with sockets. */
final class RunningClock implements BridgeClock {
    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        return new Stamp(System.nanoTime(), Instant.now(), true);
    }
}
