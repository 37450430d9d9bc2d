package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

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
        printBacnet(out, site, points);
        printMqtt(out, site, points);
        printWritable(out);
    }

    private static List<SitePoint> of(ControllerDefinition controller, List<SitePoint> points) {
        return points.stream()
                .filter(point -> point.controller().equals(controller))
                .toList();
    }

    private static void printLines(PrintWriter out, Site site, List<SitePoint> points) {
        for (LinePlan plan : LinePlan.all(site.lines(), points)) {
            double rate = plan.blocks().stream()
                    .mapToDouble(block -> 1e9 / block.every().toNanos())
                    .sum();
            out.println(String.format(
                    Locale.ROOT,
                    "Line %s: %s, %d reads, %.2f a second",
                    plan.line().name(),
                    plan.line().endpoint(),
                    plan.blocks().size(),
                    rate));
        }
    }

    private static void printController(PrintWriter out, ControllerDefinition controller, List<SitePoint> own) {
        out.println();
        out.println("Controller " + controller.name() + ": line " + controller.line() + ", unit " + controller.unit()
                + ", type " + controller.type().name() + ", " + own.size() + " points");
        AlignedRows rows = new AlignedRows("point", "address (on the wire)", "format", "unit", "every");
        own.forEach(point -> rows.add(
                point.definition().name().text(),
                point.definition().addressText(),
                point.definition().format().word(),
                point.definition().unitText(),
                every(point.definition())));
        rows.print(out);
    }

    private static String every(PointDefinition point) {
        return point.isPolled() ? Intervals.text(point.every()) : "never";
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
        off.print(out);
    }

    private static String object(Site site, SitePoint point) {
        return point.definition().object().word() + " "
                + site.bindings().instanceOf(point).orElseThrow();
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
        AlignedRows rows = new AlignedRows("topics", "tell of");
        rows.add(base + "_self/link", "the bridge itself");
        for (ControllerDefinition controller : site.controllers()) {
            long polled = of(controller, points).stream()
                    .filter(point -> point.definition().isPolled())
                    .count();
            rows.add(base + controller.name() + "/link", "whether it answers");
            rows.add(base + controller.name() + "/<point>", polled + " points");
        }
        rows.print(out);
    }

    /** By whom, in a section of its own, so that nobody has to look for it. */
    private static void printWritable(PrintWriter out) {
        out.println();
        out.println("Writable: nothing. This version writes nothing: nobody on BACnet or MQTT can");
        out.println("change anything in a controller, and only functions 1 to 4 are ever sent.");
        out.println();
        Caution.FULL.forEach(out::println);
        out.println();
    }
}
