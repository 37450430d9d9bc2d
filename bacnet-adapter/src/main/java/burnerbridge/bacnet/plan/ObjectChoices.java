package burnerbridge.bacnet.plan;

import burnerbridge.site.ObjectNames;

/**
 * What a site chooses for all its objects.
 *
 * @param basic whether only what the oldest clients know is served: no Structured View, and no number of a
 *     unit that came late
 */
public record ObjectChoices(boolean basic, ObjectNames names) {
    public static final ObjectChoices USUAL = new ObjectChoices(false, ObjectNames.USUAL);
}
