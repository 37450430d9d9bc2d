package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * All topics of a site: {@code <root>/<site>/_self/link} of the bridge itself,
 * {@code <root>/<site>/<controller>/link} and {@code <root>/<site>/<controller>/<point>}.
 */
public final class SiteTopics {
    private final BridgeTeller bridge;
    private final List<Teller> controllers = new ArrayList<>();
    private final Map<Integer, Teller> points = new LinkedHashMap<>();

    /**
     * @param root the first level or levels of every topic
     * @param startId tells this start of the bridge from every other
     * @param startedAt when the bridge started
     */
    public SiteTopics(String root, Site site, ValueTable table, String startId, Stamp startedAt) {
        String base = root + "/" + site.name() + "/";
        bridge = new BridgeTeller(base + "_self/link", startId, startedAt);
        for (ControllerDefinition controller : table.controllers()) {
            controllers.add(new LinkTeller(base + controller.name() + "/link", controller, table));
        }
        for (SitePoint point : table.points()) {
            // What is never polled has nothing to tell, ever.
            if (point.definition().isPolled()) {
                points.put(point.ordinal(), new PointTeller(ofPoint(root, site, point), point, table));
            }
        }
    }

    /** The topic that a point has if it is polled. */
    public static String ofPoint(String root, Site site, SitePoint point) {
        return root + "/" + site.name() + "/" + point.controller().name() + "/"
                + point.definition().name();
    }

    /** The bridge's own link. */
    public Teller bridge() {
        return bridge;
    }

    /** The links of the controllers, in the order of their ordinals. */
    public List<Teller> controllers() {
        return List.copyOf(controllers);
    }

    /** The polled points by their ordinals, in order. */
    public Map<Integer, Teller> points() {
        return Collections.unmodifiableMap(points);
    }

    /** What the broker is to say of the bridge when it hears no more of it; never expires. */
    public Message will() {
        return new Message(bridge.topic(), LinkPayload.WILL, 0);
    }

    /** From now on the bridge's link says that it was stopped. */
    public void stopping(Stamp now) {
        bridge.stopping(now);
    }
}
