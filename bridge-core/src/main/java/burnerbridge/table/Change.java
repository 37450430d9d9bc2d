package burnerbridge.table;

import burnerbridge.model.Reading;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;

/** What a feed tells: the newest state of something that changed. */
public sealed interface Change {

    /** A point's value, quality or reason changed. */
    record PointChanged(SitePoint point, Reading reading) implements Change {}

    /** A controller began or ceased to answer. */
    record LinkChanged(ControllerDefinition controller, ControllerLink link) implements Change {}
}
