package burnerbridge.write;

import burnerbridge.site.Role;
import burnerbridge.site.permit.Purpose;
import java.util.Collection;
import java.util.List;

/** When a controller is told that the bridge is there, and by what. */
final class Heartbeats {
    private Heartbeats() {}

    /** Whether every demand and enable of its controller stands; not where there is none. */
    static boolean demandsStand(PointState heartbeat, Collection<PointState> all) {
        List<PointState> demands = all.stream()
                .filter(state -> state.permitted.controller().equals(heartbeat.permitted.controller()))
                .filter(Heartbeats::isDemandOrEnable)
                .toList();
        return !demands.isEmpty() && demands.stream().noneMatch(state -> state.slots.isEmpty());
    }

    private static boolean isDemandOrEnable(PointState state) {
        Role role = state.permitted.point().definition().role();
        return role == Role.DEMAND || role == Role.ENABLE;
    }

    /** What is written after something. */
    static long next(Purpose.Pattern pattern, long before) {
        if (pattern instanceof Purpose.Pattern.Count count) {
            return before >= count.limit() ? 0 : before + 1;
        }
        return 1 - before;
    }
}
