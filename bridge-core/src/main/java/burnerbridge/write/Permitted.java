package burnerbridge.write;

import burnerbridge.line.WriteTemplate;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WritePermit;

/** A point with its permit, and all that a write of it can ever send. */
record Permitted(SitePoint point, WritePermit permit, WriteTemplate template) {

    PointId id() {
        return point.id();
    }

    ControllerDefinition controller() {
        return point.controller();
    }
}
