package burnerbridge.site;

/**
 * One burner controller.
 *
 * @param ordinal its position in the site, from 0
 * @param instanceBase what is added to a binding's offset to make a BACnet object instance
 */
public record ControllerDefinition(
        int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase) {

    /** The ordinal alone: a controller is a key in many maps, and its type holds a whole point list. */
    @Override
    public int hashCode() {
        return ordinal;
    }
}
