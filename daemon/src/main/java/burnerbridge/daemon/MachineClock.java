package burnerbridge.daemon;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Instant;

/** The clocks of the machine. */
@ReadsTheRealClock
final class MachineClock implements BridgeClock {
    /** A box without a battery wakes up in the past; before this moment its clock cannot be right. */
    private static final Instant EARLIEST_BELIEVED = Instant.parse("2026-11-01T00:00:00Z");

    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        Instant wall = Instant.now();
        return new Stamp(System.nanoTime(), wall, wall.isAfter(EARLIEST_BELIEVED));
    }
}
