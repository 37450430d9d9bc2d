package burnerbridge.mqtt.documents;

import static burnerbridge.mqtt.documents.Json.number;
import static burnerbridge.mqtt.documents.Json.object;

import burnerbridge.site.ControllerType;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.permit.WriteCaution;
import java.net.URI;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The topics as AsyncAPI 3.0.0: the bridge is the application; it sends, and where a permit says so it receives asks. Points have a channel for each
 * type, with the controllers of that type as its parameter.
 */
final class TopicsDocument {
    private static final String SCHEMAS = "#/components/schemas/";

    private final MqttSettings settings;
    private final Site site;
    private final String version;
    private final String base;
    private final Map<String, Object> channels = new LinkedHashMap<>();
    private final Map<String, Object> operations = new LinkedHashMap<>();

    TopicsDocument(MqttSettings settings, Site site, String version) {
        this.settings = settings;
        this.site = site;
        this.version = version;
        this.base = settings.root() + "/" + site.name() + "/";
    }

    Map<String, Object> tree() {
        addBridge();
        addControllers();
        PayloadSchemas.types(site).forEach(this::addPoints);
        PayloadSchemas.types(site).forEach(this::addWritable);
        return object(
                "asyncapi",
                "3.0.0",
                "info",
                object("title", "Burner Bridge at site " + site.name(), "version", version, "description", about()),
                "defaultContentType",
                "application/json",
                "servers",
                servers(),
                "channels",
                channels,
                "operations",
                operations,
                "components",
                object("schemas", PayloadSchemas.all(site, settings.version(), SCHEMAS)));
    }

    private String about() {
        String description = site.description().isEmpty() ? "" : site.description() + ". ";
        boolean writable = !WritablePoint.all(site).isEmpty();
        return description + "Quality of service 1. State topics are retained, events are not."
                + " A value holds for validFor seconds from sentAt and not longer, whatever the broker keeps."
                + (writable
                        ? " Caution: " + WriteCaution.TEXT
                        : " Not a safety device: check every point against the controller's own display before use.");
    }

    private Map<String, Object> servers() {
        Map<String, Object> servers = new LinkedHashMap<>();
        for (URI broker : settings.brokers()) {
            servers.put(
                    "broker-" + (servers.size() + 1),
                    object(
                            "host",
                            broker.getHost() + ":" + broker.getPort(),
                            "protocol",
                            MqttSettings.isEncrypted(broker) ? "secure-mqtt" : "mqtt",
                            "protocolVersion",
                            settings.version().number()));
        }
        return servers;
    }

    private void addBridge() {
        add("bridge.link", "_self/link", List.of(), "bridge-link", "Whether the bridge is there", true);
        add("bridge.about", "_self/about", List.of(), "bridge-about", "What the bridge is", true);
        add("bridge.events", "_self/events", List.of(), "event", "What happens to the bridge", false);
    }

    private void addControllers() {
        List<String> all = site.owners().stream().map(c -> c.name().text()).toList();
        add("controller.link", "{controller}/link", all, "link", "Whether the controller answers", true);
        add("controller.about", "{controller}/about", all, "about", "What the controller's points are", true);
        add("controller.events", "{controller}/events", all, "event", "What happens to the controller", false);
    }

    private void addPoints(ControllerType type) {
        List<String> controllers = site.owners().stream()
                .filter(controller -> controller.type().equals(type))
                .map(controller -> controller.name().text())
                .toList();
        type.points().stream().filter(PointDefinition::hasReadings).forEach(point -> {
            String name = PayloadSchemas.nameOf(type, point);
            String summary = point.description().isEmpty()
                    ? "Point " + point.name() + " of type " + type.name()
                    : point.descriptionWithBasis();
            add(name, "{controller}/" + point.name(), controllers, name, summary, true);
        });
    }

    /** What of a type may be written, by the controllers of which it may. */
    private void addWritable(ControllerType type) {
        Map<PointDefinition, List<WritablePoint>> writable = new LinkedHashMap<>();
        WritablePoint.all(site).stream()
                .filter(one -> one.point().controller().type().equals(type))
                .forEach(one -> writable.computeIfAbsent(one.point().definition(), p -> new ArrayList<>())
                        .add(one));
        writable.forEach((point, all) -> {
            String name = PayloadSchemas.nameOf(type, point);
            String level = "{controller}/" + point.name();
            add(name + ".permit", level + "/permit", names(all), "permit", "Who asks for it, and until when", true);
            List<WritablePoint> asked =
                    all.stream().filter(WritablePoint::mayBeAskedFor).toList();
            if (!asked.isEmpty()) {
                addAsk(name, level, names(asked));
            }
        });
    }

    private static List<String> names(List<WritablePoint> points) {
        return points.stream()
                .map(one -> one.point().controller().name().text())
                .toList();
    }

    /** What the bridge receives, and what it answers. */
    private void addAsk(String name, String level, List<String> controllers) {
        channel(name + ".ask", level + "/ask", controllers, "ask", "Where it may be asked for; never retained");
        channel(name + ".reply", level + "/reply", controllers, "reply", "What became of an ask");
        operations.put(
                "receive." + name + ".ask",
                object(
                        "action",
                        "receive",
                        "channel",
                        PayloadSchemas.reference("#/channels/", name + ".ask"),
                        "bindings",
                        mqtt(false),
                        "reply",
                        object("channel", PayloadSchemas.reference("#/channels/", name + ".reply"))));
    }

    /** @param controllers the values of the topic's parameter; empty where it has none */
    private void add(
            String name, String level, List<String> controllers, String schema, String summary, boolean retained) {
        channel(name, level, controllers, schema, summary);
        operations.put(
                "send." + name,
                object(
                        "action",
                        "send",
                        "channel",
                        PayloadSchemas.reference("#/channels/", name),
                        "bindings",
                        mqtt(retained)));
    }

    private static Map<String, Object> mqtt(boolean retained) {
        return object("mqtt", object("qos", number(1), "retain", retained, "bindingVersion", "0.2.0"));
    }

    private void channel(String name, String level, List<String> controllers, String schema, String summary) {
        Map<String, Object> channel = object(
                "address",
                base + level,
                "summary",
                summary,
                "messages",
                object("state", object("payload", PayloadSchemas.reference(SCHEMAS, schema))));
        if (!controllers.isEmpty()) {
            channel.put("parameters", object("controller", object("enum", controllers)));
        }
        channels.put(name, channel);
    }
}
