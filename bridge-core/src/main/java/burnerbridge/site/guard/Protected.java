package burnerbridge.site.guard;

/**
 * A place that can never be written.
 *
 * @param why for people: {@code high-limit of boiler-1 at holding-register 7 (wire 6), whose role is safety-setting}
 */
public record Protected(Place place, String why) {}
