package burnerbridge.model;

import java.time.Duration;
import java.time.Instant;

/** A clock that a test moves by hand. Its ticks begin just before they overflow. Safe for any number of threads. */
public final class HandClock implements BridgeClock {
    private long ticks = Long.MAX_VALUE - 5_000_000_000L;
    private Instant wall = Instant.parse("2026-11-25T08:00:00.250Z");
    private boolean believed = true;

    @Override
    public synchronized long ticks() {
        return ticks;
    }

    @Override
    public synchronized Stamp now() {
        return new Stamp(ticks, wall, believed);
    }

    /** Lets time pass on both clocks. */
    public synchronized void forward(Duration time) {
        ticks += time.toNanos();
        wall = wall.plus(time);
    }

    /** Moves the wall clock alone, as a correction of the machine's clock does. */
    public synchronized void stepWall(Duration by) {
        wall = wall.plus(by);
    }

    /** Sets the wall clock alone, as a time server does. */
    public synchronized void setWall(Instant instant) {
        wall = instant;
    }

    public synchronized void believe(boolean isBelieved) {
        believed = isBelieved;
    }
}
