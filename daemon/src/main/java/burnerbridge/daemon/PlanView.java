package burnerbridge.daemon;

import burnerbridge.control.ControlException;
import burnerbridge.control.JsonLine;
import burnerbridge.daemon.screen.LivePlan;
import burnerbridge.daemon.screen.PlanCsv;
import burnerbridge.daemon.screen.PlanTable;
import burnerbridge.daemon.screen.Terminal;
import burnerbridge.model.BridgeClock;
import burnerbridge.scan.ScanJson;
import burnerbridge.scan.ScanRow;
import burnerbridge.scan.ScanSource;
import burnerbridge.site.Site;
import java.io.BufferedWriter;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;

/** {@code values --plan}: how the reads are made beside what was predicted. */
final class PlanView {
    private static final long PAUSE = 100_000_000L;
    private static final int ANY_WIDTH = 1000;

    private final Site site;
    private final Rows<ScanSource> rows;
    private final Form form;
    private final BridgeClock clock;

    /** In which form it is shown. */
    enum Kind {
        TABLE,
        CSV,
        JSON
    }

    /**
     * How it is shown.
     *
     * @param once whether a table is printed once in any case
     * @param every how often a live one is drawn again
     * @param patience how long what is printed once waits for reads that were not answered yet
     * @param err for what is no part of CSV or JSON
     */
    record Form(Kind kind, boolean once, Duration every, Duration patience, PrintWriter out, PrintWriter err) {}

    PlanView(Site site, Rows<ScanSource> rows, Form form, BridgeClock clock) {
        this.site = site;
        this.rows = rows;
        this.form = form;
        this.clock = clock;
    }

    /** Returns the exit code. */
    int show() throws ControlException, InterruptedException {
        Optional<Terminal> terminal =
                form.once() || form.kind() != Kind.TABLE ? Optional.empty() : Terminal.ofThisProcess(System.getenv());
        return terminal.isPresent() ? live(terminal.get()) : printed();
    }

    private String title() {
        return "site " + site.name() + ", " + rows.origin();
    }

    private int live(Terminal terminal) throws ControlException, InterruptedException {
        Runtime.getRuntime().addShutdownHook(new Thread(terminal::close, "terminal"));
        try (terminal) {
            new LivePlan(rows.source(), title(), clock, form.every()).show(terminal, System.in);
        }
        return ExitCode.FINE;
    }

    private int printed() throws ControlException {
        List<ScanRow> all = afterFirstRound();
        PrintWriter out = new PrintWriter(new BufferedWriter(form.out()));
        switch (form.kind()) {
            case TABLE -> table(all, out);
            case CSV -> csv(all, out);
            case JSON -> json(all, out);
        }
        out.flush();
        return all.stream().allMatch(PlanView::isFine) ? ExitCode.FINE : ExitCode.WARNINGS;
    }

    /** Everything answers and nothing is refused. */
    private static boolean isFine(ScanRow row) {
        return !(row instanceof ScanRow.Controller own) || (own.link().equals("up") && own.refusedCount() == 0);
    }

    /** Once every read was answered or refused, or its controller is known not to answer. */
    private List<ScanRow> afterFirstRound() throws ControlException {
        long end = clock.ticks() + form.patience().toNanos();
        List<ScanRow> all = read();
        while (all.stream().anyMatch(PlanView::isWaiting) && end - clock.ticks() > 0) {
            LockSupport.parkNanos(PAUSE);
            all = read();
        }
        return all;
    }

    private static boolean isWaiting(ScanRow row) {
        return row instanceof ScanRow.Controller own && own.measuredScan() == null && !own.isDown();
    }

    private List<ScanRow> read() throws ControlException {
        List<ScanRow> all = new ArrayList<>();
        rows.source().read(0, Integer.MAX_VALUE, all::add);
        return all;
    }

    private void table(List<ScanRow> all, PrintWriter out) {
        PlanTable table = new PlanTable();
        all.forEach(table::make);
        out.println(title());
        out.println(table.head(ANY_WIDTH));
        all.forEach(row -> table.text(row, ANY_WIDTH).forEach(out::println));
    }

    private void csv(List<ScanRow> all, PrintWriter out) {
        form.err().println(title());
        out.println(PlanCsv.HEAD);
        all.forEach(row -> out.println(PlanCsv.line(row)));
    }

    /** One object; the rows in an array, each on a line of its own. */
    private void json(List<ScanRow> all, PrintWriter out) {
        form.err().println(title());
        out.print(new JsonMembers()
                .put("site", site.name().text())
                .put("source", rows.origin())
                .text()
                .replaceFirst("}$", ",\"plan\":["));
        String before = "\n";
        for (ScanRow row : all) {
            out.print(before + JsonLine.object(json -> ScanJson.write(json, row)));
            before = ",\n";
        }
        out.println("\n]}");
    }
}
