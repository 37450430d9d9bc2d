package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.permits.PermitRow;
import burnerbridge.permits.PermitsView;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.WritePermit;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Every write permit with its row and what is there now, for the person who approves it. */
final class PermitsReport {
    private final SiteFolder folder;
    private final Site site;

    PermitsReport(SiteFolder folder, Site site) {
        this.folder = folder;
        this.site = site;
    }

    void printNothing(PrintWriter out) {
        out.println("Site " + site.name() + ": no write permit. Nothing is writable.");
        out.println();
        Caution.FULL.forEach(out::println);
        out.flush();
    }

    /** @param origin of what is there now, for people */
    void print(PrintWriter out, PermitsView view, String origin) {
        out.println("Site " + site.name() + ", " + origin);
        out.println();
        Caution.FULL.forEach(out::println);
        for (WritePermit permit : site.permits()) {
            out.println();
            print(out, permit, view);
        }
        out.println();
        printApproval(out, view);
        out.flush();
    }

    private void print(PrintWriter out, WritePermit permit, PermitsView view) {
        SitePoint point = site.points().stream()
                .filter(one -> one.id().equals(permit.point()))
                .findFirst()
                .orElseThrow();
        PointDefinition row = point.definition();
        Optional<PermitRow> now = view.rows().stream()
                .filter(one -> one.point().equals(permit.point().toString()))
                .findFirst();
        out.println(permit.point() + ": " + row.description());
        List<String[]> lines = new ArrayList<>();
        lines.add(pair(
                "row",
                folder.origin(point).file() + " line " + folder.origin(point).line() + ", role "
                        + row.role().word() + ", " + row.format().word()));
        lines.add(pair(
                "address",
                row.addressText() + ", unit " + point.controller().unit() + " of line "
                        + point.controller().line() + ", by function " + permit.function()));
        lines.add(pair(
                "controller",
                Optional.ofNullable(
                                view.identities().get(point.controller().name().text()))
                        .map(identity -> "says that it is " + identity)
                        .orElse("has not said who it is")));
        lines.add(pair("now", now.map(PermitRow::value).orElse("not known")));
        permit.asked().ifPresent(asked -> lines.addAll(asked(asked, row)));
        permit.beat().ifPresent(beat -> lines.add(pair("writes", beat(beat))));
        lines.add(pair("memory", memory(permit, now)));
        lines.add(pair("reason", permit.reason()));
        now.ifPresent(one -> lines.addAll(standing(one)));
        lines.forEach(line -> out.println("  " + line[0] + " ".repeat(12 - line[0].length()) + line[1]));
    }

    private static String[] pair(String what, String text) {
        return new String[] {what, text};
    }

    private static List<String[]> asked(Purpose.Asked asked, PointDefinition row) {
        String unit = row.unitText().isEmpty() ? "" : " " + row.unitText();
        List<String[]> lines = new ArrayList<>();
        lines.add(pair(
                "allowed",
                asked.allowed().text() + unit
                        + asked.step()
                                .map(step -> ", by at most " + step.toPlainString() + " at a time")
                                .orElse("")
                        + ", once in " + Intervals.text(asked.interval())));
        lines.add(pair("asked by", askers(asked)));
        lines.add(pair(
                "in silence",
                asked.silence()
                        .map(silence -> silence(silence) + unit(silence, unit))
                        .orElse("nothing happens")));
        return lines;
    }

    private static String unit(Silence silence, String unit) {
        return silence.action() instanceof Silence.Action.Write ? unit : "";
    }

    private static String askers(Purpose.Asked asked) {
        Askers from = asked.from();
        List<String> all = new ArrayList<>();
        if (!from.bacnet().isEmpty()) {
            all.add("BACnet from "
                    + String.join(
                            ", ",
                            from.bacnet().stream().map(AddressBlock::toString).toList()));
        }
        if (from.mqtt()) {
            all.add("MQTT, in slot " + asked.mqttPriority());
        }
        return String.join("; ", all);
    }

    private static String silence(Silence silence) {
        String after = "after " + Intervals.text(silence.after()) + ": ";
        return silence.action() instanceof Silence.Action.Write write
                ? after + "writes " + write.value().toPlainString()
                : after + "writes nothing, the controller lets go by itself";
    }

    private static String beat(Purpose.Beat beat) {
        String what = beat.pattern() instanceof Purpose.Pattern.Count count
                ? "counts up to " + count.limit()
                : "0 and 1 in turn";
        return what + ", every " + Intervals.text(beat.every()) + ", while every demand and enable stands";
    }

    private static String memory(WritePermit permit, Optional<PermitRow> now) {
        if (permit.storage().isVolatile()) {
            return "volatile, takes any number of writes";
        }
        long lifetime = permit.storage().lifetimeWrites().orElseThrow();
        return "wears: " + now.map(PermitRow::spent).orElse(0L) + " of " + lifetime + " writes spent";
    }

    private static List<String[]> standing(PermitRow row) {
        List<String[]> lines = new ArrayList<>();
        row.slots().forEach(slot -> lines.add(pair("asked for", slot)));
        if (row.slots().isEmpty() && row.owed()) {
            lines.add(pair("asked for", "nothing any more, and a demand still stands in the controller"));
        }
        if (!row.held().isEmpty()) {
            lines.add(pair("waits", row.held()));
        }
        if (!row.asleep().isEmpty()) {
            lines.add(pair("asleep", row.asleep()));
        }
        return lines;
    }

    private static void printApproval(PrintWriter out, PermitsView view) {
        if (!view.approval().isEmpty()) {
            out.println("Last " + view.approval() + ".");
        }
        if (!view.roleChanges().isEmpty()) {
            out.println("Roles that changed since then:");
            view.roleChanges().forEach(change -> out.println("  " + change));
        }
        if (!view.differences().isEmpty()) {
            out.println("What differs from what was approved:");
            view.differences().forEach(difference -> out.println("  " + difference));
        }
        out.println(
                view.isApproved()
                        ? "Approved: the bridge may write this and nothing else."
                        : "Not approved, so that the bridge only reads: " + view.whyNotApproved() + ".");
    }
}
