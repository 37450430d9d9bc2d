package burnerbridge.model;

import java.time.Duration;
import java.time.Instant;

/** A clock that a test moves by hand. */
public final class HandClock implements BridgeClock {
    private static final Instant WALL_START = Instant.parse("2026-11-25T08:00:00Z");

    private long ticks = 5_000_000_000L;
    private Instant wall = WALL_START;

    public HandClock forward(Duration duration) {
        ticks += duration.toNanos();
        wall = wall.plus(duration);
        return this;
    }

    /** Moves the wall clock alone, as a correction of the machine's clock does. */
    public void stepWall(Duration duration) {
        wall = wall.plus(duration);
    }

    @Override
    public long ticks() {
        return ticks;
    }

    @Override
    public Stamp now() {
        return new Stamp(ticks, wall, true);
    }
}
