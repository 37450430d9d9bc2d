package burnerbridge.bacnet.points;

import burnerbridge.site.unit.Unit;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;

/**
 * The number of a unit in BACnetEngineeringUnits, and the fall-back: where that has none, or one that came so
 * late that clients may show it as a bare number, the symbol stands in Description too.
 */
public final class UnitNumbers {
    private static final int NO_UNITS = 95;
    /** The last number of the standard's 2004 edition, which the oldest clients in use know; from memory. */
    private static final int LAST_OF_2004 = 189;

    private UnitNumbers() {}

    /** @param basic whether late numbers are left out */
    public static EngineeringUnits number(Unit unit, boolean basic) {
        return EngineeringUnits.forId(basic && isLate(unit) ? NO_UNITS : unit.bacnetNumber());
    }

    private static boolean isLate(Unit unit) {
        return unit.bacnetNumber() > LAST_OF_2004;
    }

    /** A description with the symbol in brackets where a client cannot be sure to know the number. */
    public static String described(String description, Unit unit) {
        boolean said = !isLate(unit) && unit.bacnetNumber() != NO_UNITS;
        return said || unit.symbol().isEmpty() ? description : (description + " (" + unit.symbol() + ")").strip();
    }
}
