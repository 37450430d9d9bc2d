package burnerbridge.mqtt.topic;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.Purpose;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A topic that is not a point's readings: one of the bridge itself, of a controller or group as a whole, or of a point
 * that may be written.
 *
 * @param topic the root included
 * @param retained whether a broker keeps its newest message
 * @param tells what it tells, for people
 */
public record OwnTopic(String topic, boolean retained, String tells) {
    private static final String BRIDGE = "_self";

    /** All of a site, the bridge's first. */
    public static List<OwnTopic> all(String root, Site site) {
        List<OwnTopic> topics = new ArrayList<>();
        String base = base(root, site.name());
        String bridge = ofBridge(base);
        topics.add(new OwnTopic(link(bridge), true, "whether the bridge is there"));
        topics.add(new OwnTopic(about(bridge), true, "the site, its controllers and groups"));
        topics.add(new OwnTopic(events(bridge), false, "the bridge started, stopped"));
        for (ControllerDefinition owner : site.owners()) {
            String own = base + owner.name();
            topics.add(
                    new OwnTopic(link(own), true, owner.isGroup() ? "whether all of it answer" : "whether it answers"));
            topics.add(new OwnTopic(about(own), true, "what its points are"));
            topics.add(new OwnTopic(events(own), false, events(site, owner)));
        }
        Map<PointId, Purpose.Asked> asked = site.asked();
        site.points()
                .forEach(point -> Optional.ofNullable(asked.get(point.id()))
                        .ifPresent(permit -> topics.addAll(ofPermit(base, point, permit))));
        return topics;
    }

    private static String events(Site site, ControllerDefinition owner) {
        boolean writable = site.permits().stream()
                .anyMatch(permit -> permit.point().controller().equals(owner.name()));
        return writable ? "communication lost and back, what became of writes" : "communication lost and back";
    }

    private static List<OwnTopic> ofPermit(String base, SitePoint point, Purpose.Asked asked) {
        String own = base + point.controller().name() + "/" + point.definition().name();
        List<OwnTopic> topics = new ArrayList<>();
        topics.add(new OwnTopic(permit(own), true, "who asks for it, and until when"));
        if (asked.from().mqtt()) {
            topics.add(new OwnTopic(ask(own), false, "read by the bridge: asks to write it"));
            topics.add(new OwnTopic(reply(own), false, "what became of an ask"));
        }
        return topics;
    }

    /** What every topic of a site begins with, the last slash included. */
    static String base(String root, Name site) {
        return root + "/" + site + "/";
    }

    static String ofBridge(String base) {
        return base + BRIDGE;
    }

    /** Where a point may be asked for. */
    public static String ask(String point) {
        return point + "/ask";
    }

    /** Where it is told what became of an ask. */
    public static String reply(String point) {
        return point + "/reply";
    }

    /** Where it is told how a point's permit stands. */
    public static String permit(String point) {
        return point + "/permit";
    }

    static String link(String owner) {
        return owner + "/link";
    }

    static String about(String owner) {
        return owner + "/about";
    }

    static String events(String owner) {
        return owner + "/events";
    }
}
