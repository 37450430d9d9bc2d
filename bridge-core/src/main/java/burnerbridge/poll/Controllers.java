package burnerbridge.poll;

import burnerbridge.line.LineTransport;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ValueTable;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;

/** The controllers of one line that it reads. */
final class Controllers {
    private static final long PROBES_SHARE = 50;

    private final LinePlan plan;
    private final LineTransport transport;
    private final ValueTable table;
    private final LineLog log;
    private final Map<Integer, Controller> byOrdinal = new LinkedHashMap<>();

    Controllers(LinePlan plan, LineTransport transport, ValueTable table, LineLog log, long now) {
        this.plan = plan;
        this.transport = transport;
        this.table = table;
        this.log = log;
        int number = 0;
        for (ReadBlock block : plan.blocks()) {
            Controller controller = of(block.controller());
            controller.add(new Schedule(block, number++, controller, now));
        }
    }

    private Controller of(ControllerDefinition definition) {
        return byOrdinal.computeIfAbsent(
                definition.ordinal(),
                ordinal -> new Controller(
                        new ControllerHealth(definition, table, log, this::longestProbePause), transport));
    }

    Collection<Controller> all() {
        return byOrdinal.values();
    }

    /** So long that the probes of all lost controllers, each a whole time-out, take 2 % of the line's time. */
    private long longestProbePause() {
        long lost =
                all().stream().filter(controller -> controller.health.isLost()).count();
        return plan.line().replyTimeout().toNanos() * PROBES_SHARE * Math.max(1, lost);
    }

    void lineDown(String detail, Stamp now) {
        all().forEach(controller -> controller.health.lineDown(detail, now));
    }
}
