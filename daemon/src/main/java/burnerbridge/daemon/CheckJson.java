package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.control.JsonLine;
import burnerbridge.mqtt.topic.OwnTopic;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.WebSettings;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What {@code check} found, for programs: one JSON object, each entry of its lists on a line of its own. */
final class CheckJson {
    /** Raised where a member goes or means something else; new members do not raise it. */
    private static final int VERSION = 1;

    static final String NOTHING_IS_WRITABLE = "nothing is writable: no permit is in site.yaml";
    static final String NOT_YET =
            "nothing of it is writable until a person has approved it on the box," + " with burner-bridge permits SITE";
    static final String DOES_NOT_START = "nothing is writable: the bridge does not start on this site";

    private final SiteFolder folder;
    private final List<String> changes;
    private final List<String> members = new ArrayList<>();

    /** @param changes what {@code --bind} did */
    CheckJson(SiteFolder folder, List<String> changes) {
        this.folder = folder;
        this.changes = changes;
    }

    void print(PrintWriter out) {
        member("version", Integer.toString(VERSION));
        member("starts", JsonLine.value(folder.site().isPresent()));
        list("problems", folder.problems().stream().map(CheckJson::problem).toList());
        list("changes", changes.stream().map(JsonLine::value).toList());
        folder.site().ifPresentOrElse(this::site, this::noSite);
        List<Writable> writable =
                folder.site().map(site -> Writable.of(folder, site)).orElse(List.of());
        list(
                "writable",
                writable.stream().map(one -> new WritableJson(one).text()).toList());
        member("writable-note", JsonLine.value(note(writable)));
        member("caution", JsonLine.value(String.join(" ", Caution.FULL)));
        out.println("{\n" + String.join(",\n", members) + "\n}");
    }

    private String note(List<Writable> writable) {
        if (folder.site().isEmpty()) {
            return DOES_NOT_START;
        }
        return writable.isEmpty() ? NOTHING_IS_WRITABLE : NOT_YET;
    }

    private void member(String name, String json) {
        members.add(JsonLine.value(name) + ":" + json);
    }

    private void list(String name, List<String> entries) {
        member(name, entries.isEmpty() ? "[]" : "[\n" + String.join(",\n", entries) + "\n]");
    }

    private static String problem(Problem problem) {
        return new JsonMembers()
                .put("severity", problem.word())
                .put("file", problem.file())
                .number("line", problem.line())
                .number("column", problem.column())
                .put("message", problem.message())
                .text();
    }

    private void noSite() {
        List.of("site", "bacnet", "mqtt", "web").forEach(name -> member(name, "null"));
        List.of("lines", "controllers", "groups", "points").forEach(name -> list(name, List.of()));
    }

    private void site(Site site) {
        member(
                "site",
                new JsonMembers()
                        .put("name", site.name())
                        .put("description", site.description())
                        .put("time-zone", site.zone())
                        .optional("language", site.language())
                        .text());
        member("bacnet", site.bacnet().map(CheckJson::bacnet).orElse("null"));
        member("mqtt", site.mqtt().map(mqtt -> mqtt(mqtt, site)).orElse("null"));
        member("web", site.web().map(CheckJson::web).orElse("null"));
        List<SitePoint> points = site.points();
        list(
                "lines",
                LinePlan.all(site.lines(), points).stream().map(CheckJson::line).toList());
        List<OwnObject> objects = OwnObject.of(site);
        list(
                "controllers",
                site.controllers().stream()
                        .map(controller -> controller(controller, objects))
                        .toList());
        list("groups", site.groups().stream().map(CheckJson::group).toList());
        list(
                "points",
                points.stream()
                        .map(point -> new PointJson(folder, site, point).text())
                        .toList());
    }

    private static String bacnet(BacnetSettings bacnet) {
        return new JsonMembers()
                .number("device-instance", bacnet.deviceInstance())
                .put("device-name", bacnet.deviceName())
                .put("bind", bacnet.bind())
                .number("port", bacnet.port())
                .optional("broadcast", bacnet.broadcast())
                .optional("foreign-device", bacnet.options().foreignDevice().map(CheckJson::registration))
                .text();
    }

    private static Map<String, @Nullable Object> registration(BacnetOptions.Registration wanted) {
        return new JsonMembers()
                .put("host", wanted.host())
                .number("port", wanted.port())
                .number("lifetime-s", wanted.seconds())
                .map();
    }

    private static String mqtt(MqttSettings mqtt, Site site) {
        return new JsonMembers()
                .put("brokers", mqtt.brokers())
                .put("root", mqtt.root())
                .put("version", mqtt.version().number())
                .put("client-id", mqtt.clientIdOf(site.name()))
                .put(
                        "topics",
                        OwnTopic.all(mqtt.root(), site).stream()
                                .map(CheckJson::topic)
                                .toList())
                .text();
    }

    private static String web(WebSettings web) {
        return new JsonMembers()
                .put("bind", web.bind())
                .number("port", web.port())
                .put("token", web.token().isPresent())
                .text();
    }

    private static Map<String, @Nullable Object> topic(OwnTopic own) {
        return new JsonMembers()
                .put("topic", own.topic())
                .put("retained", own.retained())
                .put("tells", own.tells())
                .map();
    }

    private static String line(LinePlan plan) {
        LineDefinition line = plan.line();
        return new JsonMembers()
                .put("name", line.name())
                .put("kind", kind(line.endpoint()))
                .put("endpoint", line.endpoint())
                .number("reply-timeout-ms", line.replyTimeout().toMillis())
                .number("connect-timeout-ms", line.connectTimeout().toMillis())
                .put("foretold", new PlanReport(plan).members())
                .text();
    }

    private static String kind(LineDefinition.Endpoint endpoint) {
        if (endpoint instanceof LineDefinition.Tcp) {
            return "tcp";
        }
        return endpoint instanceof LineDefinition.Serial ? "serial" : "rtu-over-tcp";
    }

    private static String controller(ControllerDefinition controller, List<OwnObject> objects) {
        TypeOptions options = controller.type().options();
        return new JsonMembers()
                .put("name", controller.name())
                .put("line", controller.line())
                .number("unit", controller.unit().number())
                .put("any-reply-unit", controller.anyReplyUnit())
                .number("address-offset", controller.addressOffset())
                .put("type", controller.type().name())
                .put("tables", tables(controller.type()))
                .number("instance-base", controller.instanceBase())
                .optional("identity", options.identity())
                .optional("watchdog-ms", options.watchdog().map(w -> BigDecimal.valueOf(w.toMillis())))
                .put("readable", ranges(options.readable()))
                .put("protected", ranges(options.guarded()))
                .put("objects", objects(controller, objects))
                .text();
    }

    private static @Nullable String tables(ControllerType type) {
        if (type.options().separateTables()) {
            return "separate";
        }
        return type.rules().mirrored() ? "mirror" : null;
    }

    private static List<Map<String, @Nullable Object>> objects(
            ControllerDefinition controller, List<OwnObject> objects) {
        return objects.stream()
                .filter(object -> object.controller().equals(controller))
                .map(object -> new JsonMembers()
                        .put("object", object.kind())
                        .number("instance", object.instance())
                        .put("object-name", object.name())
                        .map())
                .toList();
    }

    private static String group(ControllerDefinition group) {
        return new JsonMembers()
                .put("name", group.name())
                .put(
                        "members",
                        group.members().stream().map(ControllerDefinition::name).toList())
                .text();
    }

    private static List<Map<String, @Nullable Object>> ranges(List<TypeOptions.Stated> ranges) {
        return ranges.stream()
                .map(stated -> new JsonMembers()
                        .put("written", stated.written())
                        .put("table", stated.range().table().word())
                        .number("first-wire", stated.range().first())
                        .number("last-wire", stated.range().last())
                        .map())
                .toList();
    }
}
