package burnerbridge.mqtt;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.time.Instant;

/** A clock that stands still until it is moved. Its ticks begin just before they overflow. */
public final class HandClock implements BridgeClock {
    private long ticks = Long.MAX_VALUE - 5_000_000_000L;
    private Instant wall = Instant.parse("2026-11-25T08:00:00.250Z");
    private boolean believed = true;

    @Override
    public long ticks() {
        return ticks;
    }

    @Override
    public Stamp now() {
        return new Stamp(ticks, wall, believed);
    }

    public void advance(Duration by) {
        ticks += by.toNanos();
        wall = wall.plus(by);
    }

    public void stepWall(Duration by) {
        wall = wall.plus(by);
    }

    public void believe(boolean believed) {
        this.believed = believed;
    }
}
