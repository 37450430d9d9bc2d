package burnerbridge.bacnet;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.time.Instant;

/** A clock that a test moves. */
public final class HandClock implements BridgeClock {
    private long ticks = 1_000_000_000L;
    private Instant wall = Instant.parse("2026-11-25T08:00:00Z");

    @Override
    public synchronized long ticks() {
        return ticks;
    }

    @Override
    public synchronized Stamp now() {
        return new Stamp(ticks, wall, true);
    }

    /** Lets time pass. */
    public synchronized void pass(Duration time) {
        ticks += time.toNanos();
        wall = wall.plus(time);
    }

    /** Sets the wall clock alone, as a time server does. */
    public synchronized void setWall(Instant instant) {
        wall = instant;
    }
}
