package burnerbridge.daemon;

import burnerbridge.plan.LinePlan;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;

/** What a site would do, for people. */
final class CheckReport {
    private final Site site;
    private final List<SitePoint> points;

    CheckReport(Site site) {
        this.site = site;
        this.points = site.points();
    }

    void print(PrintWriter out) {
        out.println();
        String description = site.description().isEmpty() ? "" : ": " + site.description();
        out.println("Site " + site.name() + " (" + site.zone() + ")" + description);
        printLines(out);
        for (ControllerDefinition controller : site.controllers()) {
            printController(out, controller);
        }
        printSides(out);
        out.println();
        out.println("Writable: nothing. This version of the bridge sends functions 1 to 4 only.");
        out.println(Caution.SHORT);
        out.println();
    }

    private void printLines(PrintWriter out) {
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

    private void printController(PrintWriter out, ControllerDefinition controller) {
        List<SitePoint> own = points.stream()
                .filter(point -> point.controller().equals(controller))
                .toList();
        out.println();
        out.println("Controller " + controller.name() + ": line " + controller.line() + ", unit " + controller.unit()
                + ", type " + controller.type().name() + ", " + own.size() + " points");
        out.println(row("point", "address (on the wire)", "format", "unit", "every", "BACnet object"));
        own.forEach(point -> out.println(row(point)));
    }

    private String row(SitePoint point) {
        PointDefinition definition = point.definition();
        return row(
                definition.name().text(),
                definition.addressText(),
                definition.format().word(),
                definition.unitText(),
                definition.isPolled() ? definition.every().toMillis() / 1000.0 + " s" : "not polled",
                object(point));
    }

    private static String row(String name, String address, String format, String unit, String every, String object) {
        return String.format(
                        Locale.ROOT, "  %-28s %-38s %-8s %-12s %-10s %s", name, address, format, unit, every, object)
                .stripTrailing();
    }

    private String object(SitePoint point) {
        OptionalInt instance = site.bindings().instanceOf(point);
        if (!point.definition().wantsObject() || site.bacnet().isEmpty()) {
            return "-";
        }
        return instance.isPresent() ? point.definition().object().word() + " " + instance.getAsInt() : "not bound";
    }

    private void printSides(PrintWriter out) {
        out.println();
        out.println(site.bacnet()
                .map(b -> "BACnet: device " + b.deviceInstance() + " \"" + b.deviceName() + "\" at " + b.bind() + ":"
                        + b.port())
                .orElse("BACnet: off"));
        out.println(site.mqtt()
                .map(m -> "MQTT: topics " + m.root() + "/" + site.name() + "/<controller>/<point> at " + m.brokers())
                .orElse("MQTT: off"));
    }
}
