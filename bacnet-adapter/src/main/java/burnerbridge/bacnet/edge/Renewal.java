package burnerbridge.bacnet.edge;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Steps a {@link ForeignDevice} on a thread of its own. */
final class Renewal implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Renewal.class);
    private static final long JOIN_MILLIS = 1000;
    /** An answer may bring the next step forward. */
    private static final long LONGEST_PAUSE = 1_000_000_000L;

    private final ForeignDevice device;
    private final BridgeClock clock;
    private final CountDownLatch closing = new CountDownLatch(1);
    private final Thread thread = new Thread(this::run, "bacnet registration");

    Renewal(ForeignDevice device, BridgeClock clock) {
        this.device = device;
        this.clock = clock;
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{}: ended by an error", t.getName(), e));
    }

    void start() {
        thread.start();
    }

    private void run() {
        try {
            long pause = 0;
            while (!closing.await(pause, TimeUnit.NANOSECONDS)) {
                Stamp now = clock.now();
                pause = Math.min(LONGEST_PAUSE, Math.max(1, device.step(now) - now.ticks()));
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        closing.countDown();
        try {
            thread.join(JOIN_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
