package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.mqtt.topic.OwnTopic;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Condition;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Meaning;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointOptions;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.TypeOptions;
import java.io.PrintWriter;
import java.util.List;

/** What a site would do, for people: what is read, what appears on each side, and what could be written. */
final class CheckReport {
    private final SiteFolder folder;

    CheckReport(SiteFolder folder) {
        this.folder = folder;
    }

    /** Nothing where the site has errors. */
    void print(PrintWriter out) {
        folder.site().ifPresent(site -> print(out, site));
    }

    private void print(PrintWriter out, Site site) {
        List<SitePoint> points = site.points();
        out.println();
        out.println("Site " + site.name() + " (" + site.zone() + ")");
        if (!site.description().isEmpty()) {
            out.println(site.description());
        }
        printLines(out, site, points);
        for (ControllerDefinition controller : site.controllers()) {
            printController(out, controller, of(controller, points));
        }
        site.groups().forEach(group -> printGroup(out, group));
        printMeanings(out, points);
        printAlarms(out, points);
        printBacnet(out, site, points);
        printMqtt(out, site, points);
        printWeb(out, site);
        new WritableReport(Writable.of(folder, site), folder.folder()).print(out);
    }

    private static List<SitePoint> of(ControllerDefinition controller, List<SitePoint> points) {
        return points.stream()
                .filter(point -> point.controller().equals(controller))
                .toList();
    }

    private static void printLines(PrintWriter out, Site site, List<SitePoint> points) {
        LinePlan.all(site.lines(), points).forEach(plan -> new PlanReport(plan).print(out));
    }

    private static void printController(PrintWriter out, ControllerDefinition controller, List<SitePoint> own) {
        out.println();
        out.println("Controller " + controller.name() + ": line " + controller.line() + ", unit " + controller.unit()
                + ", type " + controller.type().name() + ", " + own.size() + " points");
        printTables(out, controller.type());
        printOptions(out, controller.type().options());
        AlignedRows rows = new AlignedRows("point", "address (on the wire)", "format", "unit", "every");
        own.forEach(point -> rows.add(
                point.definition().name().text(),
                point.definition().addressText(),
                point.definition().format().word(),
                point.definition().unitText(),
                every(point.definition())));
        rows.print(out);
    }

    private static void printGroup(PrintWriter out, ControllerDefinition group) {
        out.println();
        out.println("Group " + group.name() + ": "
                + String.join(
                        ", ", group.members().stream().map(m -> m.name().text()).toList()));
        AlignedRows rows = new AlignedRows("point", "counts");
        group.type().points().forEach(point -> rows.add(point.name().text(), point.description()));
        rows.print(out);
    }

    /** What is said of them decides what a write could touch. */
    private static void printTables(PrintWriter out, ControllerType type) {
        if (type.options().separateTables()) {
            out.println("  tables: separate, no address of one is also one of another");
        } else if (type.rules().mirrored()) {
            out.println("  tables: functions 3 and 4 read the same");
        }
    }

    private static void printOptions(PrintWriter out, TypeOptions options) {
        options.identity().ifPresent(name -> out.println("  told from others by " + name));
        options.watchdog()
                .ifPresent(
                        time -> out.println("  lets a demand go after " + Intervals.text(time) + " without a write"));
        options.readable().forEach(range -> out.println("  may be read across: " + range));
        options.guarded().forEach(range -> out.println("  never to be written: " + range));
    }

    private static String every(PointDefinition point) {
        return point.isPolled() ? Intervals.text(point.every()) : "never";
    }

    /** By name, since what a row means is what a slip of the pen changes most quietly. */
    private static void printMeanings(PrintWriter out, List<SitePoint> points) {
        AlignedRows rows = new AlignedRows("point", "means", "while");
        for (SitePoint point : points) {
            PointOptions options = point.definition().options();
            if (options.meaning().isPresent() || options.when().isPresent()) {
                rows.add(
                        point.id().toString(),
                        options.meaning().map(Meaning::word).orElse(""),
                        options.when().map(Condition::text).orElse(""));
            }
        }
        if (rows.isEmpty()) {
            return;
        }
        out.println();
        out.println("Meanings: what the bridge knows of a point, and the states in which it is so");
        rows.print(out);
    }

    private static void printAlarms(PrintWriter out, List<SitePoint> points) {
        AlignedRows rows = new AlignedRows("point", "alarm", "delay");
        for (SitePoint point : points) {
            point.definition()
                    .options()
                    .alarm()
                    .ifPresent(alarm -> rows.add(
                            point.id().toString(),
                            (alarm.text() + " " + point.definition().unit().symbol()).strip(),
                            Intervals.text(alarm.delay())));
        }
        if (rows.isEmpty()) {
            return;
        }
        out.println();
        out.println("Alarms: kept for a later version; this one tells none");
        rows.print(out);
    }

    private void printBacnet(PrintWriter out, Site site, List<SitePoint> points) {
        out.println();
        if (site.bacnet().isEmpty()) {
            out.println("BACnet: off");
            return;
        }
        BacnetSettings bacnet = site.bacnet().get();
        out.println("BACnet: device " + bacnet.deviceInstance() + " \"" + bacnet.deviceName() + "\" at " + bacnet.bind()
                + ":" + bacnet.port());
        bacnet.options()
                .foreignDevice()
                .ifPresent(wanted -> out.println("  registers as a foreign device with " + wanted.host() + ":"
                        + wanted.port() + " for " + wanted.seconds() + " s at a time"));
        AlignedRows on = new AlignedRows("object", "point", "unit");
        AlignedRows off = new AlignedRows("not on BACnet", "because");
        for (SitePoint point : points) {
            folder.whyNoObject(point)
                    .ifPresentOrElse(
                            why -> off.add(point.id().toString(), why),
                            () -> on.add(
                                    object(site, point),
                                    point.id().toString(),
                                    point.definition().unitText()));
        }
        on.print(out);
        printOwn(out, site);
        off.print(out);
        AlignedRows mute = new AlignedRows("permitted, and not to be asked for on BACnet", "because");
        OwnObject.plan(site)
                .ifPresent(plan ->
                        plan.mute().forEach(one -> mute.add(one.point().id().toString(), one.why())));
        mute.print(out);
    }

    private static void printOwn(PrintWriter out, Site site) {
        AlignedRows own = new AlignedRows("object of a controller", "name", "shows");
        OwnObject.of(site)
                .forEach(object -> own.add(object.kind() + " " + object.instance(), object.name(), object.shows()));
        own.print(out);
    }

    private static String object(Site site, SitePoint point) {
        return point.definition().object().word() + " "
                + site.bindings().instanceOf(point).orElseThrow();
    }

    private static void printWeb(PrintWriter out, Site site) {
        out.println();
        out.println(site.web()
                .map(web -> "Web: " + web.hostAndPort() + ", /health and /metrics"
                        + (web.token().isPresent() ? ", with a token" : ""))
                .orElse("Web: off"));
    }

    private static void printMqtt(PrintWriter out, Site site, List<SitePoint> points) {
        out.println();
        if (site.mqtt().isEmpty()) {
            out.println("MQTT: off");
            return;
        }
        MqttSettings mqtt = site.mqtt().get();
        String base = mqtt.root() + "/" + site.name() + "/";
        out.println("MQTT: brokers tried in turn: "
                + String.join(
                        ", ", mqtt.brokers().stream().map(Object::toString).toList()));
        out.println("Topics: " + base + "<controller>/<point>");
        AlignedRows rows = new AlignedRows("topic", "kept", "tells");
        OwnTopic.all(mqtt.root(), site)
                .forEach(own -> rows.add(own.topic(), own.retained() ? "yes" : "no", own.tells()));
        for (ControllerDefinition controller : site.owners()) {
            long told = of(controller, points).stream()
                    .filter(point -> point.definition().hasReadings())
                    .count();
            rows.add(base + controller.name() + "/<point>", "yes", told + " points");
        }
        rows.print(out);
    }
}
