package burnerbridge.write;

import burnerbridge.site.permit.Purpose;
import java.time.Duration;
import java.util.Collection;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * How often what stands is written again: a controller that lets a demand go when nothing is written for a while, and is
 * given no heartbeat, would let it go while its slot still holds. Twice in that while (common practice), and never more
 * often than the permit's interval lets it.
 */
final class Refreshing {
    private Refreshing() {}

    /** @return nanoseconds; empty where a demand stands by itself, or a heartbeat keeps it */
    static OptionalLong every(PointState state, Collection<PointState> all) {
        Optional<Duration> watchdog =
                state.permitted.controller().type().options().watchdog();
        Optional<Purpose.Asked> asked = state.permitted.permit().asked();
        if (watchdog.isEmpty() || asked.isEmpty() || asked.get().silence().isEmpty() || isKeptByHeartbeat(state, all)) {
            return OptionalLong.empty();
        }
        return OptionalLong.of(
                Math.max(watchdog.get().toNanos() / 2, asked.get().interval().toNanos()));
    }

    private static boolean isKeptByHeartbeat(PointState state, Collection<PointState> all) {
        return all.stream()
                .anyMatch(other -> other.permitted.permit().beat().isPresent()
                        && other.permitted.controller().equals(state.permitted.controller()));
    }
}
