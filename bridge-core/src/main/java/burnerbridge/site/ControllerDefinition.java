package burnerbridge.site;

/**
 * One burner controller.
 *
 * @param ordinal its position in the site, from 0
 * @param instanceBase what is added to a binding's offset to make a BACnet object instance
 * @param anyReplyUnit whether its replies may carry any unit identifier, as those of some gateways do
 */
public record ControllerDefinition(
        int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase, boolean anyReplyUnit) {

    /** A controller whose replies carry its own unit identifier. */
    public ControllerDefinition(int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase) {
        this(ordinal, name, line, unit, type, instanceBase, false);
    }

    /** The ordinal alone: a controller is a key in many maps, and its type holds a whole point list. */
    @Override
    public int hashCode() {
        return ordinal;
    }
}
