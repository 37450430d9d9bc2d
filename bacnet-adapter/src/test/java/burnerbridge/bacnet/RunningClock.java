package burnerbridge.bacnet;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Instant;

/** The real clock, for tests with sockets. */
final class RunningClock implements BridgeClock {

    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        return new Stamp(ticks(), Instant.now(), true);
    }
}
