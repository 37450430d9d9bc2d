package burnerbridge.bacnet.device;

import java.util.HashMap;
import java.util.Map;

/** The standard's names of units, typed beside their symbols. */
public final class UnitNames {
    private UnitNames() {}

    public static Map<String, String> all() {
        Map<String, String> names = new HashMap<>();
        UnitNumbersTest.names().forEach(line -> names.put(line.split(" ", -1)[0], line.split(" ", -1)[1]));
        return names;
    }
}
