package burnerbridge.mqtt.documents;

import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Purpose;
import java.util.List;

/** A point with a permit that others can ask for. */
record WritablePoint(SitePoint point, Purpose.Asked permit) {

    /** All of a site, in the order of its points. */
    static List<WritablePoint> all(Site site) {
        return site.points().stream()
                .flatMap(point -> site.asked(point.id()).map(asked -> new WritablePoint(point, asked)).stream())
                .toList();
    }

    /** Whether MQTT may ask for it. */
    boolean mayBeAskedFor() {
        return permit.from().mqtt();
    }

    /** Its levels below those of the site. */
    String levels() {
        return point.controller().name() + "/" + point.definition().name();
    }
}
