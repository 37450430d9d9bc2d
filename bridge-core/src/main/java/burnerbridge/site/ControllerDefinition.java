package burnerbridge.site;

/**
 * One burner controller.
 *
 * @param ordinal its position in the site, from 0
 * @param instanceBase what is added to a binding's offset to make a BACnet object instance
 * @param anyReplyUnit whether its replies may carry any unit identifier, as those of some gateways do
 * @param addressOffset what was added to every address of its type, whose points are those that it has
 */
public record ControllerDefinition(
        int ordinal,
        Name name,
        Name line,
        UnitId unit,
        ControllerType type,
        int instanceBase,
        boolean anyReplyUnit,
        int addressOffset) {

    /** A controller that has a unit identifier for itself, and replies with it. */
    public ControllerDefinition(int ordinal, Name name, Name line, UnitId unit, ControllerType type, int instanceBase) {
        this(ordinal, name, line, unit, type, instanceBase, false, 0);
    }

    /** The ordinal alone: a controller is a key in many maps, and its type holds a whole point list. */
    @Override
    public int hashCode() {
        return ordinal;
    }
}
