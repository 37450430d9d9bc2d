package burnerbridge.daemon;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.BacnetStartException;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Starts the BACnet side and, where its address or port cannot be had yet, tries again for ever while
 * the rest runs. A duty: stepped by one thread, closed by another; what is wrong and what is counted may be asked for
 * by any.
 */
final class BacnetSide implements HealthSource, MetricSource, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(BacnetSide.class);
    private static final long FIRST_PAUSE = 1_000_000_000L;
    private static final long NOTHING_TO_DO = 3_600_000_000_000L;
    private static final long LONGEST_PAUSE = 30_000_000_000L;
    private static final Metric SERVING = Metric.gauge(
            "burner_bridge_bacnet_serving", "1 while the BACnet side is open, 0 while its port cannot be had.");

    private final Supplier<BacnetAdapter> adapters;
    private volatile @Nullable BacnetAdapter running;
    private volatile @Nullable Trouble trouble;
    private long pause = FIRST_PAUSE;
    private boolean closed;

    BacnetSide(Supplier<BacnetAdapter> adapters) {
        this.adapters = adapters;
    }

    synchronized long step(long now) {
        if (running != null || closed) {
            return now + NOTHING_TO_DO;
        }
        BacnetAdapter next = adapters.get();
        try {
            next.start();
            running = next;
            trouble = null;
            return now + NOTHING_TO_DO;
        } catch (BacnetStartException e) {
            next.close();
            note(e);
            long due = now + pause;
            pause = Math.min(2 * pause, LONGEST_PAUSE);
            return due;
        }
    }

    /** How it stands with the registration elsewhere; empty where none is wanted or nothing is served yet. */
    Optional<ForeignDevice.State> foreignDevice() {
        BacnetAdapter present = running;
        return present == null ? Optional.empty() : present.foreignDevice();
    }

    /** A reason is told once, and another one when it takes its place. */
    private void note(BacnetStartException e) {
        Trouble before = trouble;
        Trouble next = e.trouble();
        trouble = before == null ? next : since(before, next);
        if (before == null || !before.seen().equals(next.seen())) {
            LOG.warn("{}; trying again until it works", next.sentence());
        } else {
            LOG.debug("{}", e.getMessage());
        }
    }

    private static Trouble since(Trouble before, Trouble next) {
        return new Trouble(next.place(), next.about(), next.seen(), next.lookAt(), before.since(), next.weight());
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        BacnetAdapter present = running;
        Trouble wrong = trouble;
        if (present != null) {
            present.tell(troubles);
        } else if (wrong != null) {
            troubles.accept(wrong);
        }
    }

    @Override
    public void measure(MetricSink sink) {
        BacnetAdapter present = running;
        sink.sample(SERVING, present == null ? 0 : 1);
        if (present != null) {
            present.measure(sink);
        }
    }

    @Override
    public synchronized void close() {
        closed = true;
        BacnetAdapter present = running;
        if (present != null) {
            present.close();
            running = null;
        }
    }
}
