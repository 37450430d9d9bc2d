package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.payload.AboutPayload;
import burnerbridge.mqtt.payload.LinkPayload;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.WriteEvent;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * All topics of a site: below {@code <root>/<site>/} the link, the events and the description of the bridge
 * itself in {@code _self}, and those of each controller beside its points.
 */
public final class SiteTopics {
    private final String base;
    private final BridgeTeller bridge;
    private final SiteEvents events;
    private final List<Teller> controllers = new ArrayList<>();
    private final List<Teller> abouts = new ArrayList<>();
    private final Map<Integer, Teller> points = new LinkedHashMap<>();
    private final Map<PointId, PermitTeller> permits = new LinkedHashMap<>();
    private final Leftovers leftovers;

    /**
     * @param startId tells this start of the bridge from every other
     * @param startedAt when the bridge started
     */
    public SiteTopics(MqttSettings settings, Site site, ValueTable table, String startId, Stamp startedAt) {
        this(settings, site, table, startId, startedAt, Optional.empty());
    }

    /**
     * @param startId tells this start of the bridge from every other
     * @param startedAt when the bridge started
     * @param status how the permit of a point stands; empty where nothing is to be told of permits
     */
    public SiteTopics(
            MqttSettings settings,
            Site site,
            ValueTable table,
            String startId,
            Stamp startedAt,
            Optional<Function<PointId, Optional<PermitStatus>>> status) {
        String clientId = settings.clientIdOf(site.name());
        AboutPayload.Author author = new AboutPayload.Author(clientId, startId);
        base = OwnTopic.base(settings.root(), site.name());
        bridge = new BridgeTeller(OwnTopic.link(OwnTopic.ofBridge(base)), startId, startedAt);
        events = new SiteEvents(base, table.controllers(), startId, startedAt);
        abouts.add(new AboutTeller(OwnTopic.about(OwnTopic.ofBridge(base)), AboutPayload.ofBridge(author, site)));
        List<List<SitePoint>> told = addPoints(settings.root(), site, table);
        for (ControllerDefinition controller : table.controllers()) {
            String own = base + controller.name();
            controllers.add(new LinkTeller(OwnTopic.link(own), controller, table));
            abouts.add(new AboutTeller(
                    OwnTopic.about(own),
                    AboutPayload.ofController(author, site, controller, told.get(controller.ordinal()))));
        }
        status.ifPresent(of -> addPermits(settings.root(), site, of));
        leftovers = new Leftovers(base, site.name().text(), clientId, retained());
    }

    /** What the bridge's link says of the audit of writes besides: the newest record, or nothing. */
    public SiteTopics publishing(Supplier<Optional<String>> auditHead) {
        bridge.publishing(auditHead);
        return this;
    }

    /** The points that have topics, by their controllers' ordinals. */
    private List<List<SitePoint>> addPoints(String root, Site site, ValueTable table) {
        List<List<SitePoint>> told = new ArrayList<>();
        table.controllers().forEach(controller -> told.add(new ArrayList<>()));
        for (SitePoint point : table.points()) {
            // What is never read nor computed has nothing to tell, ever.
            if (point.definition().hasReadings()) {
                points.put(point.ordinal(), new PointTeller(ofPoint(root, site, point), point, table));
                told.get(point.controller().ordinal()).add(point);
            }
        }
        return told;
    }

    private void addPermits(String root, Site site, Function<PointId, Optional<PermitStatus>> status) {
        Set<PointId> asked = site.asked().keySet();
        for (SitePoint point : site.points()) {
            if (asked.contains(point.id())) {
                String topic = OwnTopic.permit(ofPoint(root, site, point));
                permits.put(point.id(), new PermitTeller(topic, point, () -> status.apply(point.id())));
            }
        }
    }

    private Set<String> retained() {
        Set<String> topics = new HashSet<>();
        controllers.forEach(teller -> topics.add(teller.topic()));
        abouts.forEach(teller -> topics.add(teller.topic()));
        points.values().forEach(teller -> topics.add(teller.topic()));
        permits.values().forEach(teller -> topics.add(teller.topic()));
        return topics;
    }

    /** The topic that a point has if it is polled. */
    public static String ofPoint(String root, Site site, SitePoint point) {
        return OwnTopic.base(root, site.name()) + point.controller().name() + "/"
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

    /** How permits stand, by their points. */
    public Map<PointId, Teller> permits() {
        return Collections.unmodifiableMap(permits);
    }

    /** How a permit stands is another than before. */
    public void permitChanged(PointId point) {
        PermitTeller teller = permits.get(point);
        if (teller != null) {
            teller.changed();
        }
    }

    /** Something became of a point that may be written. */
    public void happened(ControllerDefinition controller, WriteEvent event, Stamp at) {
        events.happened(controller, event, at);
    }

    /** The descriptions, the bridge's first. */
    public List<Teller> abouts() {
        return List.copyOf(abouts);
    }

    /** The descriptions that a broker keeps, those of former controllers included. */
    public String everyAbout() {
        return OwnTopic.about(base + "+");
    }

    /** What a broker has to forget because of a description that it kept; its own topic comes last. */
    public List<Teller> leftovers(String topic, String payload) {
        return leftovers.of(topic, payload).stream()
                .<Teller>map(Forgetting::new)
                .toList();
    }

    /** What happens to the bridge. */
    public Teller bridgeEvents() {
        return events.bridge();
    }

    /** What happens to the controllers, in the order of their ordinals. */
    public List<Teller> controllerEvents() {
        return List.copyOf(events.controllers());
    }

    /** A controller began or ceased to answer, which may be an event. */
    public void linkChanged(ControllerDefinition controller, ControllerLink link, Stamp now) {
        events.linkChanged(controller, link, now);
    }

    /** What the broker is to say of the bridge when it hears no more of it; never expires. */
    public Message will() {
        return new Message(bridge.topic(), LinkPayload.WILL, 0);
    }

    /** From now on the bridge's link says that it was stopped. */
    public void stopping(Stamp now) {
        bridge.stopping(now);
        events.stopping(now);
    }
}
