package burnerbridge.daemon;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.BacnetStartException;
import burnerbridge.bacnet.edge.ForeignDevice;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Starts the BACnet side and, where its address or port cannot be had yet, tries again for ever while
 * the rest runs. A duty: stepped by one thread, closed by another.
 */
final class BacnetSide implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(BacnetSide.class);
    private static final long FIRST_PAUSE = 1_000_000_000L;
    private static final long NOTHING_TO_DO = 3_600_000_000_000L;
    private static final long LONGEST_PAUSE = 30_000_000_000L;

    private final Supplier<BacnetAdapter> adapters;
    private volatile @Nullable BacnetAdapter running;
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
            return now + NOTHING_TO_DO;
        } catch (BacnetStartException e) {
            tell(e);
            next.close();
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

    private void tell(BacnetStartException e) {
        if (pause == FIRST_PAUSE) {
            LOG.warn("{}; trying again until it works", e.getMessage());
        } else {
            LOG.debug("{}", e.getMessage());
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
