package burnerbridge.site;

/**
 * A point of the site: a row of the list as one controller has it.
 *
 * @param ordinal its position in the site, from 0; the value table's index
 */
public record SitePoint(int ordinal, ControllerDefinition controller, PointDefinition definition) {

    /** The ordinal alone: a point is a key in many maps, and its definition is large. */
    @Override
    public int hashCode() {
        return ordinal;
    }

    public PointId id() {
        return new PointId(controller.name(), definition.name());
    }
}
