package burnerbridge.bacnet.edge.watch;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Whether the system takes what we send. Sends that fail go on as long as none of them is older than two minutes, in
 * which any cyclic traffic would have come by again. Safe for any number of threads.
 */
final class Sends {
    static final Duration OVER_AFTER = Duration.ofMinutes(2);

    private final String place;
    private @Nullable Stamp first;
    private long latest;
    private long failed;
    private boolean anyTaken;
    private String what = "";

    Sends(String place) {
        this.place = place;
    }

    synchronized void taken() {
        anyTaken = true;
    }

    /**
     * One was not taken.
     *
     * @param to where it should have gone
     * @param why what the system says
     */
    synchronized void failed(String to, String why, Stamp now) {
        if (!areFailing(now.ticks())) {
            first = now;
            failed = 0;
            anyTaken = false;
        }
        failed++;
        latest = now.ticks();
        what = to + ": " + why;
    }

    private boolean areFailing(long now) {
        return first != null && now - latest < OVER_AFTER.toNanos();
    }

    /** Tells what is wrong at a moment; does not wait. */
    void tell(Consumer<Trouble> troubles, long now) {
        Trouble trouble;
        synchronized (this) {
            if (!areFailing(now)) {
                return;
            }
            trouble = new Trouble(
                    Place.NETWORK,
                    place,
                    "cannot send, " + failed + " times by now, at last to " + what,
                    "the addresses, routes and packet filter of this machine (ip -br address, ip route)",
                    first,
                    anyTaken ? Weight.DEGRADED : Weight.NOT_READY);
        }
        troubles.accept(trouble);
    }
}
