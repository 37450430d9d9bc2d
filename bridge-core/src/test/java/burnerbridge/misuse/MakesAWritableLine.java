package burnerbridge.misuse;

import burnerbridge.line.Lines;
import burnerbridge.line.WritableLine;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition;
import java.util.List;
import java.util.Map;

final class MakesAWritableLine {
    WritableLine make(LineDefinition line, BridgeClock clock) {
        return Lines.writable(line, clock, List.of(), Map.of());
    }
}
