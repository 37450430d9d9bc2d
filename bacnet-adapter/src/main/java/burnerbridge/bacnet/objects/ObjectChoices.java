package burnerbridge.bacnet.objects;

import burnerbridge.site.SitePoint;

/**
 * What a site chooses for all its objects.
 *
 * @param basic whether only what the oldest clients know is served: no Structured View, and no number of a
 *     unit that came late
 * @param names the name of an object, with {@code {controller}} and {@code {point}} in it
 */
public record ObjectChoices(boolean basic, String names) {
    public static final String CONTROLLER = "{controller}";
    public static final String POINT = "{point}";
    public static final ObjectChoices USUAL = new ObjectChoices(false, CONTROLLER + "." + POINT);

    public ObjectChoices {
        if (!names.contains(CONTROLLER) || !names.contains(POINT)) {
            throw new IllegalArgumentException(
                    "names of objects hold " + CONTROLLER + " and " + POINT + " (was '" + names + "')");
        }
    }

    String nameOf(SitePoint point) {
        return name(point.controller().name().text(), point.definition().name().text());
    }

    String name(String controller, String point) {
        return names.replace(CONTROLLER, controller).replace(POINT, point);
    }
}
