package burnerbridge.site;

/**
 * A point of the site: a row of the list as one controller has it.
 *
 * @param ordinal its position in the site, from 0; the value table's index
 */
public record SitePoint(int ordinal, ControllerDefinition controller, PointDefinition definition) {

    public PointId id() {
        return new PointId(controller.name(), definition.name());
    }
}
