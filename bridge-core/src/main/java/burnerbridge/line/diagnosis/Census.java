package burnerbridge.line.diagnosis;

import burnerbridge.line.LineCounts;
import burnerbridge.site.UnitId;
import java.util.Map;

/** The counts of a line and of each unit on it at one moment. */
public record Census(LineCounts line, Map<UnitId, LineCounts> units) {
    public Census {
        units = Map.copyOf(units);
    }
}
