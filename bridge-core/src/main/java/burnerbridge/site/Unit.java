package burnerbridge.site;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The units that a row may state: the symbol that people write and the number of ASHRAE 135's
 * BACnetEngineeringUnits enumeration.
 */
public enum Unit {
    NONE("", 95),
    PERCENT("%", 98),
    DEGREES_CELSIUS("°C", 62),
    DEGREES_FAHRENHEIT("°F", 64),
    KELVIN("K", 63),
    BAR("bar", 55),
    MILLIBAR("mbar", 134),
    PASCAL("Pa", 53),
    KILOPASCAL("kPa", 54),
    POUNDS_PER_SQUARE_INCH("psi", 56),
    WATT("W", 47),
    KILOWATT("kW", 48),
    MEGAWATT("MW", 49),
    KILOWATT_HOUR("kWh", 19),
    CUBIC_METRE("m3", 80),
    CUBIC_METRE_PER_HOUR("m3/h", 135),
    LITRE_PER_HOUR("l/h", 136),
    KILOGRAM_PER_HOUR("kg/h", 44),
    PARTS_PER_MILLION("ppm", 96),
    HERTZ("Hz", 27),
    REVOLUTIONS_PER_MINUTE("rpm", 104),
    MILLIAMPERE("mA", 2),
    AMPERE("A", 3),
    VOLT("V", 5),
    DEGREES_ANGULAR("°", 90),
    MILLISECOND("ms", 159),
    SECOND("s", 73),
    MINUTE("min", 72),
    HOUR("h", 71);

    private final String symbol;
    private final int bacnetNumber;

    Unit(String symbol, int bacnetNumber) {
        this.symbol = symbol;
        this.bacnetNumber = bacnetNumber;
    }

    /** The symbol as written in the point list and in payloads; empty for none. */
    public String symbol() {
        return symbol;
    }

    /** Its number in BACnetEngineeringUnits. */
    public int bacnetNumber() {
        return bacnetNumber;
    }

    public static Optional<Unit> withSymbol(String symbol) {
        return Arrays.stream(values()).filter(u -> u.symbol.equals(symbol)).findFirst();
    }

    /** Every symbol but the empty one, for messages. */
    public static List<String> symbols() {
        return Arrays.stream(values())
                .map(Unit::symbol)
                .filter(s -> !s.isEmpty())
                .toList();
    }
}
