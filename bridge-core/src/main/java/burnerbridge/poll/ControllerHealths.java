package burnerbridge.poll;

import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ValueTable;
import java.util.LinkedHashMap;
import java.util.Map;

/** The controllers of one line. */
final class ControllerHealths {
    private final ValueTable table;
    private final Map<Integer, ControllerHealth> byOrdinal = new LinkedHashMap<>();

    ControllerHealths(ValueTable table) {
        this.table = table;
    }

    ControllerHealth of(ControllerDefinition controller) {
        return byOrdinal.computeIfAbsent(controller.ordinal(), o -> new ControllerHealth(controller, table));
    }

    void lineDown(String detail, Stamp now) {
        byOrdinal.values().forEach(health -> health.lineDown(detail, now));
    }
}
