package burnerbridge.mqtt.documents;

import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Purpose;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A point with a permit that others can ask for. */
record WritablePoint(SitePoint point, Purpose.Asked permit) {

    /** All of a site, in the order of its points. */
    static List<WritablePoint> all(Site site) {
        Map<PointId, Purpose.Asked> asked = site.asked();
        return site.points().stream()
                .flatMap(point ->
                        Optional.ofNullable(asked.get(point.id()))
                                .map(permit -> new WritablePoint(point, permit))
                                .stream())
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
