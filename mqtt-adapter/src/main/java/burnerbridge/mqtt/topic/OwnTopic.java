package burnerbridge.mqtt.topic;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import java.util.ArrayList;
import java.util.List;

/**
 * A topic that is not a point's: one of the bridge itself, or of a controller or group as a whole.
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
            topics.add(new OwnTopic(events(own), false, "communication lost and back"));
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
