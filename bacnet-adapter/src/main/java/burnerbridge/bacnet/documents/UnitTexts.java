package burnerbridge.bacnet.documents;

import burnerbridge.bacnet.device.Inventory;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** The numbers of the units that are served, with their symbols. */
final class UnitTexts {
    private static final int NO_UNITS = 95;

    private UnitTexts() {}

    static String of(Inventory inventory) {
        Map<Integer, String> symbols = new TreeMap<>();
        for (Inventory.Entry entry : inventory.entries()) {
            Encodable units = entry.object().get(PropertyIdentifier.units);
            if (units instanceof EngineeringUnits known) {
                // Without a point it is a lease, in seconds.
                String symbol = entry.point()
                        .map(point -> point.definition().unit().symbol())
                        .orElse("s");
                symbols.putIfAbsent(known.intValue(), known.intValue() == NO_UNITS ? "no-units" : symbol);
            }
        }
        StringBuilder text = new StringBuilder("#Encoding of unit codes\r\n");
        text.append(Cells.line(List.of("#Code", "Unit Text")));
        symbols.forEach((code, symbol) -> text.append(Cells.line(List.of(code.toString(), symbol))));
        return text.toString();
    }
}
