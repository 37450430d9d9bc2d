package burnerbridge.simulator.clock;

import java.util.concurrent.locks.LockSupport;

/** The ticks of this machine. */
@ReadsTheRealClock
public final class MachineTicker implements Ticker {

    @Override
    public long nanos() {
        return System.nanoTime();
    }

    @Override
    public void await(long nanos) throws InterruptedException {
        for (long left = nanos - nanos(); left > 0; left = nanos - nanos()) {
            LockSupport.parkNanos(this, left);
            if (Thread.interrupted()) {
                throw new InterruptedException("interrupted while waiting on a wire");
            }
        }
    }
}
