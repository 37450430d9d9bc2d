package burnerbridge.benchmark.measure;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.locks.LockSupport;

/** The clocks of the machine. */
@ReadsTheRealClock
public final class MachineClock implements BridgeClock {

    @Override
    public long ticks() {
        return System.nanoTime();
    }

    @Override
    public Stamp now() {
        return new Stamp(System.nanoTime(), Instant.now(), true);
    }

    /** Lets at least so much time pass; less only where the thread is interrupted. */
    public void pause(Duration length) {
        long end = ticks() + length.toNanos();
        for (long left = length.toNanos(); left > 0 && !Thread.currentThread().isInterrupted(); left = end - ticks()) {
            LockSupport.parkNanos(this, left);
        }
    }
}
