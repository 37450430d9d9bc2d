package burnerbridge.mqtt;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Instant;

/** The machine's clocks, for tests with sockets. */
public final class RealClock implements BridgeClock {

    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        return new Stamp(System.nanoTime(), Instant.now(), true);
    }
}
