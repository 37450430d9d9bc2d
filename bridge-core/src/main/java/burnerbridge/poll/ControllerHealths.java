package burnerbridge.poll;

import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;

/** The controllers of one line. */
final class ControllerHealths {
    private static final long PROBES_SHARE = 50;

    private final ValueTable table;
    private final Duration replyTimeout;
    private final Map<Integer, ControllerHealth> byOrdinal = new LinkedHashMap<>();

    ControllerHealths(ValueTable table, Duration replyTimeout) {
        this.table = table;
        this.replyTimeout = replyTimeout;
    }

    /** So long that the probes of all lost controllers, each a whole time-out, take 2 % of the line's time. */
    long longestProbePause() {
        long lost = byOrdinal.values().stream().filter(ControllerHealth::isLost).count();
        return replyTimeout.toNanos() * PROBES_SHARE * Math.max(1, lost);
    }

    ControllerHealth of(ControllerDefinition controller) {
        return byOrdinal.computeIfAbsent(
                controller.ordinal(), o -> new ControllerHealth(controller, table, this::longestProbePause));
    }

    void lineDown(String detail, Stamp now) {
        byOrdinal.values().forEach(health -> health.lineDown(detail, now));
    }
}
