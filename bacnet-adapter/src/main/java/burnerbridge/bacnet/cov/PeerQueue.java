package burnerbridge.bacnet.cov;

import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;

/**
 * Paces the confirmed notifications of one peer. What waits is the subscription, not a value, so that a slow
 * peer is told the newest value once and costs no memory. How many may be on their way at once grows with
 * each that is acknowledged and falls to one where a peer keeps silent. Guarded by its desk.
 */
final class PeerQueue {
    /** Notifications in a row, each with all its repetitions. */
    private static final int SILENCES = 3;

    private static final int FIRST_WINDOW = 4;

    private final int widest;
    private final Deque<Subscription> queue = new ArrayDeque<>();
    private int window;
    private int onTheirWay;
    private int silences;
    private long round;

    PeerQueue(int widest) {
        this.widest = widest;
        this.window = Math.min(FIRST_WINDOW, widest);
    }

    void add(Subscription subscription) {
        if (!subscription.queued) {
            subscription.queued = true;
            queue.add(subscription);
        }
    }

    /** The next that may go now; null where none may. */
    @Nullable
    Subscription next() {
        if (onTheirWay >= window) {
            return null;
        }
        Subscription next = queue.poll();
        if (next != null) {
            next.queued = false;
            onTheirWay++;
        }
        return next;
    }

    /** A number for what is sent now, to be given back with its reply. */
    long round() {
        return round;
    }

    void heard() {
        onTheirWay--;
        silences = 0;
        window = Math.min(window + 1, widest);
    }

    /**
     * One was never answered. Those that were on their way at the same time tell nothing more; so only the
     * first of a round counts.
     */
    void silent(long sentIn) {
        onTheirWay--;
        if (sentIn == round) {
            round++;
            silences++;
            window = 1;
        }
    }

    boolean isDead() {
        return silences >= SILENCES;
    }

    int waiting() {
        return queue.size();
    }

    /** What came out of the queue was not sent. */
    void passedOver() {
        onTheirWay--;
    }
}
