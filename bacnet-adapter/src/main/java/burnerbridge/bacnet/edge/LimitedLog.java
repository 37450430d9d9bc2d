package burnerbridge.bacnet.edge;

import burnerbridge.model.BridgeClock;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import org.slf4j.Logger;

/**
 * Writes at most one line a minute for each kind of trouble, with the number of those left out; all go to
 * debug. Whoever can send datagrams must not be able to fill a disk.
 */
public final class LimitedLog {
    private static final long PAUSE = Duration.ofMinutes(1).toNanos();

    private final Logger log;
    private final BridgeClock clock;
    private final Map<Object, Kind> kinds = new ConcurrentHashMap<>();

    private static final class Kind {
        private final AtomicLong leftOut = new AtomicLong();
        private final AtomicLong next;

        Kind(long next) {
            this.next = new AtomicLong(next);
        }
    }

    public LimitedLog(Logger log, BridgeClock clock) {
        this.log = log;
        this.clock = clock;
    }

    /**
     * Tells a trouble.
     *
     * @param kind one of a closed set: an enum constant or a class, never anything a peer can choose
     */
    public void tell(Object kind, Supplier<String> message) {
        long now = clock.ticks();
        Kind state = kinds.computeIfAbsent(kind, k -> new Kind(now));
        long due = state.next.get();
        if (now - due >= 0 && state.next.compareAndSet(due, now + PAUSE)) {
            log.warn("{}{}", message.get(), more(state.leftOut.getAndSet(0)));
        } else {
            state.leftOut.incrementAndGet();
            if (log.isDebugEnabled()) {
                log.debug(message.get());
            }
        }
    }

    private static String more(long leftOut) {
        return leftOut == 0 ? "" : " (and " + leftOut + " more since the last such line)";
    }
}
