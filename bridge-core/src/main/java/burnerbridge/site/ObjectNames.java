package burnerbridge.site;

/**
 * How the BACnet objects of a site are named.
 *
 * @param template the name of a point's object where its row has none of its own, with {@link #CONTROLLER} and
 *     {@link #POINT} in it
 */
public record ObjectNames(String template) {
    public static final String CONTROLLER = PointOptions.CONTROLLER;
    public static final String POINT = "{point}";
    public static final ObjectNames USUAL = new ObjectNames(CONTROLLER + "." + POINT);

    /** No point can have this name, since a topic has it. */
    private static final String LINK = "link";

    public ObjectNames {
        if (!template.contains(CONTROLLER) || !template.contains(POINT)) {
            throw new IllegalArgumentException(
                    "must hold " + CONTROLLER + " and " + POINT + " (was '" + template + "')");
        }
    }

    /** What the point's row says, else by the template. */
    public String of(SitePoint point) {
        String controller = point.controller().name().text();
        return point.definition()
                .options()
                .objectName()
                .map(name -> name.replace(CONTROLLER, controller))
                .orElseGet(() -> filled(controller, point.definition().name().text()));
    }

    /** The object by which a permitted point is asked for. */
    public String ofRequest(SitePoint point) {
        return of(point) + RequestObjects.REQUEST;
    }

    /** The object that tells how long an ask for a point still holds. */
    public String ofLease(SitePoint point) {
        return of(point) + RequestObjects.LEASE;
    }

    /** The object that tells whether a controller answers. */
    public String ofAnswers(ControllerDefinition controller) {
        return filled(controller.name().text(), LINK);
    }

    /** The Structured View of a controller. */
    public String ofView(ControllerDefinition controller) {
        return controller.name().text();
    }

    private String filled(String controller, String point) {
        return template.replace(CONTROLLER, controller).replace(POINT, point);
    }
}
