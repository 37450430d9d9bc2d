package burnerbridge.daemon;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.measure.MetricSink;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.web.WebAdapter;
import burnerbridge.web.WebStartException;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Starts the port for health and metrics and, where it cannot be had yet, tries again for ever while the rest runs. A
 * duty: stepped by one thread, closed by another.
 */
final class WebSide implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(WebSide.class);
    private static final long FIRST_PAUSE = 1_000_000_000L;
    private static final long LONGEST_PAUSE = 30_000_000_000L;
    private static final long NOTHING_TO_DO = 3_600_000_000_000L;

    private final Supplier<WebAdapter> adapters;
    private final BridgeClock clock;
    private long pause = FIRST_PAUSE;
    private boolean closed;
    private volatile @Nullable WebAdapter running;
    private volatile Optional<Failure> failure = Optional.empty();

    private record Failure(String why, Stamp since) {}

    WebSide(Supplier<WebAdapter> adapters, BridgeClock clock) {
        this.adapters = adapters;
        this.clock = clock;
    }

    synchronized long step(long now) {
        if (running != null || closed) {
            return now + NOTHING_TO_DO;
        }
        WebAdapter next = adapters.get();
        try {
            next.start();
            running = next;
            failure = Optional.empty();
            return now + NOTHING_TO_DO;
        } catch (WebStartException e) {
            next.close();
            String why = String.valueOf(e.getMessage());
            if (failure.filter(before -> before.why().equals(why)).isEmpty()) {
                LOG.warn("{}; trying again until it works", why);
                failure = Optional.of(new Failure(why, clock.now()));
            }
            long due = now + pause;
            pause = Math.min(2 * pause, LONGEST_PAUSE);
            return due;
        }
    }

    /** The port that is open; empty while none is. */
    OptionalInt port() {
        WebAdapter present = running;
        return present == null ? OptionalInt.empty() : OptionalInt.of(present.port());
    }

    void tell(Consumer<Trouble> troubles) {
        failure.ifPresent(now -> troubles.accept(new Trouble(
                Place.BRIDGE,
                "web",
                now.why().replaceFirst("^web: ", ""),
                "the section web of site.yaml, and which program has the port ('ss -tlpn' tells)",
                now.since(),
                Weight.DEGRADED)));
        WebAdapter present = running;
        if (present != null) {
            present.tell(troubles);
        }
    }

    void measure(MetricSink sink) {
        WebAdapter present = running;
        if (present != null) {
            present.measure(sink);
        }
    }

    @Override
    public synchronized void close() {
        closed = true;
        WebAdapter present = running;
        if (present != null) {
            present.close();
            running = null;
        }
    }
}
