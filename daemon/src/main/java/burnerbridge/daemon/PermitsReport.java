package burnerbridge.daemon;

import burnerbridge.permits.PermitRow;
import burnerbridge.permits.PermitsView;
import burnerbridge.site.Site;
import java.io.PrintWriter;
import java.util.List;

/** Every write permit with its row and what is there now, for the person who approves it. */
final class PermitsReport {
    private final Site site;
    private final List<Writable> writable;

    PermitsReport(Site site, List<Writable> writable) {
        this.site = site;
        this.writable = writable;
    }

    void printNothing(PrintWriter out) {
        out.println("Site " + site.name() + ": no write permit is in site.yaml. Nothing is writable.");
        caution(out);
        out.flush();
    }

    /** @param origin of what is there now, for people */
    void print(PrintWriter out, PermitsView view, String origin) {
        out.println("Site " + site.name() + ", " + origin);
        caution(out);
        writable.forEach(one -> print(out, one, view));
        out.println();
        printChanges(out, view);
        out.flush();
    }

    private static void caution(PrintWriter out) {
        out.println();
        Caution.FULL.forEach(out::println);
        out.println();
    }

    private static void print(PrintWriter out, Writable one, PermitsView view) {
        WritableReport.print(out, one);
        String identity = view.identities().get(one.controller().name().text());
        WritableReport.line(
                out,
                "who",
                one.controller().name()
                        + (identity == null ? " has not said who it is" : " says that it is " + identity));
        view.rows().stream()
                .filter(row -> row.point().equals(one.point().id().toString()))
                .forEach(row -> print(out, one, row));
    }

    private static void print(PrintWriter out, Writable one, PermitRow row) {
        WritableReport.line(out, "now", row.value());
        if (!one.permit().storage().isVolatile()) {
            WritableReport.line(out, "spent", row.spent() + " writes so far");
        }
        row.slots().forEach(slot -> WritableReport.line(out, "asked", slot));
        if (row.slots().isEmpty() && row.owed()) {
            WritableReport.line(out, "asked", "for nothing any more, and a demand still stands in the controller");
        }
        if (!row.held().isEmpty()) {
            WritableReport.line(out, "waits", row.held());
        }
        if (!row.asleep().isEmpty()) {
            WritableReport.line(out, "asleep", row.asleep());
        }
    }

    private static void printChanges(PrintWriter out, PermitsView view) {
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
    }

    /** Whether the bridge may write what was shown. */
    static String verdict(PermitsView view) {
        return view.isApproved()
                ? "Approved: the bridge may write this and nothing else."
                : "Not approved, so that the bridge only reads: " + view.whyNotApproved() + ".";
    }
}
