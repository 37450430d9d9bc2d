package burnerbridge.web.http;

import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/** The connections that are open, the oldest first, and which of them has to go when there are too many. */
final class Visits {
    /** Whoever asks at once is answered at once; more than these at a time are those who do not. */
    static final int MOST = 64;
    /** Answers that are not taken lie in memory. */
    static final long MOST_WAITING_OCTETS = 16L << 20;

    private final Set<Visit> open = new LinkedHashSet<>();

    void add(Visit visit) {
        open.add(visit);
    }

    void forget(Visit visit) {
        open.remove(visit);
    }

    int count() {
        return open.size();
    }

    Collection<Visit> all() {
        return Set.copyOf(open);
    }

    /** When the next of them has lasted too long, counted from now; at most a quarter of a second. */
    long nextDue(long now) {
        long wait = TimeUnit.MILLISECONDS.toNanos(250);
        for (Visit visit : open) {
            wait = Math.min(wait, visit.due() - now);
        }
        return Math.max(0, wait);
    }

    /**
     * Which goes so that another can come: the one that has been here longest without having asked. So those who open
     * connections and say nothing push out each other, and not whoever asks.
     */
    Optional<Visit> leastWorthWhenFull() {
        return open.size() < MOST ? Optional.empty() : open.stream().min(Comparator.comparing(Visits::worth));
    }

    private static int worth(Visit visit) {
        return switch (visit.phase()) {
            case GONE -> 0;
            case LEAVING -> 1;
            case ASKING -> 2;
            case ANSWERING -> 3;
        };
    }

    /** Which goes because too much waits to be taken: the oldest that does not take its answer. */
    Optional<Visit> leastWorthWhenHeavy() {
        long waiting = open.stream().mapToLong(Visit::waiting).sum();
        return waiting <= MOST_WAITING_OCTETS
                ? Optional.empty()
                : open.stream().filter(visit -> visit.waiting() > 0).findFirst();
    }
}
