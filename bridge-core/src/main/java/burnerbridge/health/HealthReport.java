package burnerbridge.health;

import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.util.ArrayList;
import java.util.List;

/**
 * How the whole bridge is at one moment, for whoever watches it.
 *
 * <p>Only what is not alive is worth a restart. What is not ready is alive: a broker that is away would otherwise make
 * whatever restarts the bridge restart it for ever, and nothing would be the better for it.
 *
 * @param alive whether every part moves; false where any is stalled
 * @param stalled the parts that have stopped moving, as the log names them
 * @param ready whether each side that the site wants serves what is read; false where any trouble says so
 * @param troubles everything that is wrong, the heaviest first
 * @param site the name of the site
 * @param version of the bridge
 * @param startedAt when the bridge started
 * @param clockBelieved whether the wall clock is believed right now
 */
public record HealthReport(
        boolean alive,
        List<String> stalled,
        boolean ready,
        List<Trouble> troubles,
        String site,
        String version,
        Stamp startedAt,
        boolean clockBelieved) {

    public HealthReport {
        stalled = List.copyOf(stalled);
        List<Trouble> sorted = new ArrayList<>(troubles);
        // Stable, so that troubles of one weight stay as their parts told them.
        sorted.sort((a, b) -> b.weight().compareTo(a.weight()));
        troubles = List.copyOf(sorted);
        alive = alive && stalled.isEmpty();
        ready = ready && alive && has(troubles, Weight.NOT_READY) == 0;
    }

    /** Whether the bridge does less than it should. */
    public boolean degraded() {
        return !ready || has(troubles, Weight.DEGRADED) > 0;
    }

    private static long has(List<Trouble> troubles, Weight weight) {
        return troubles.stream().filter(trouble -> trouble.weight() == weight).count();
    }
}
