package burnerbridge.mqtt;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.time.Instant;

/** The machine's clocks, which a test sets forward or back while something runs by them. */
final class ShiftedClock implements BridgeClock {
    private long ticks;
    private Duration wall = Duration.ZERO;

    @Override
    public synchronized long ticks() {
        return System.nanoTime() + ticks;
    }

    @Override
    public synchronized Stamp now() {
        return new Stamp(ticks(), Instant.now().plus(wall), true);
    }

    /** Lets time pass at once, on both clocks. */
    synchronized void forward(Duration time) {
        ticks += time.toNanos();
        wall = wall.plus(time);
    }

    /** Sets the wall clock, as a time server or a person does. */
    synchronized void setWall(Instant now) {
        wall = Duration.between(Instant.now(), now);
    }
}
