package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.control.ControlException;
import burnerbridge.daemon.screen.CsvFormat;
import burnerbridge.daemon.screen.JsonFormat;
import burnerbridge.daemon.screen.LiveTable;
import burnerbridge.daemon.screen.RowFormat;
import burnerbridge.daemon.screen.RowTable;
import burnerbridge.daemon.screen.TableFormat;
import burnerbridge.daemon.screen.Terminal;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Quality;
import burnerbridge.site.Site;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.io.BufferedWriter;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.locks.LockSupport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows what the points are now. */
@Command(
        name = "values",
        mixinStandardHelpOptions = true,
        description = "Shows every point with its registers, value, quality and age, live on a terminal. Asks the"
                + " running bridge; where none runs, it reads from the lines itself.",
        footer = {
            "",
            "Exit codes: 0 all good, or ended live; 1 something is not good; 2 bad input; 3 could not reach.",
            "",
            Caution.SHORT
        })
final class ValuesCommand implements Callable<Integer> {
    private static final long PAUSE = 100_000_000L;
    private static final double SHORTEST_PACE = 0.2;
    private static final double LONGEST_PACE = 60;
    private static final double LONGEST_WAIT = 3600;

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Parameters(
            index = "1..*",
            paramLabel = "CONTROLLER[.POINT]",
            description = "Only these, with * and ? for what may be anything: boiler-1, '*.flue-*'.")
    private List<String> points = List.of();

    @Option(
            names = "--quality",
            split = ",",
            paramLabel = "WORD",
            description = "Only points of these qualities: good, uncertain, stale, bad.")
    private List<String> qualities = List.of();

    @Option(
            names = "--plan",
            description = "Show how the reads are made: predicted and measured load and scan time, interval asked for"
                    + " and achieved, of every line, controller and interval.")
    private boolean plan;

    @Option(names = "--once", description = "Print once, after every point was asked for, and end.")
    private boolean once;

    @Option(names = "--csv", description = "The same as CSV, with exact values.")
    private boolean csv;

    @Option(names = "--json", description = "The same as JSON, with exact values.")
    private boolean json;

    @Option(names = "--addresses", description = "Show the addresses, as in the manual and as on the wire.")
    private boolean addresses;

    @Option(
            names = "--every",
            paramLabel = "SECONDS",
            description = "How often the live table is drawn again, 0.2 to 60 (1).")
    private double every = 1;

    @Option(
            names = "--wait",
            paramLabel = "SECONDS",
            description = "How long to wait for points that were not read yet, 0 to 3600 (30).")
    private double wait = 30;

    @Mixin
    private StateOption state = new StateOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final BridgeClock clock = new MachineClock();

    @Override
    public Integer call() throws InterruptedException {
        SiteFolder loaded = SiteFolder.load(folder);
        Optional<Site> site = loaded.site();
        if (site.isEmpty()) {
            loaded.problems().stream()
                    .filter(Problem::isError)
                    .forEach(problem -> say(problem.word() + ": " + problem));
            say(folder + " has errors.");
            return ExitCode.BAD_INPUT;
        }
        Query query;
        try {
            query = query();
        } catch (IllegalArgumentException e) {
            say("error: " + e.getMessage());
            return ExitCode.BAD_INPUT;
        }
        QuietLog.set();
        return show(site.get(), query);
    }

    private void say(String words) {
        spec.commandLine().getErr().println(words);
    }

    private Query query() {
        if (csv && json) {
            throw new IllegalArgumentException("--csv and --json: one of them");
        }
        if (plan && (addresses || !points.isEmpty() || !qualities.isEmpty())) {
            throw new IllegalArgumentException("--plan shows whole lines: no points, --quality or --addresses with it");
        }
        checkRange("--every", every, SHORTEST_PACE, LONGEST_PACE);
        checkRange("--wait", wait, 0, LONGEST_WAIT);
        Set<Quality> chosen = EnumSet.noneOf(Quality.class);
        for (String word : qualities) {
            chosen.add(List.of(Quality.values()).stream()
                    .filter(quality -> quality.word().equals(word.strip().toLowerCase(Locale.ROOT)))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException(
                            "--quality: must be good, uncertain, stale or bad (was '" + word + "')")));
        }
        return new Query(points, chosen, 0, Integer.MAX_VALUE);
    }

    private static void checkRange(String option, double value, double least, double most) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(
                    option + ": must be " + number(least) + " to " + number(most) + " s (was " + number(value) + ")");
        }
    }

    private static String number(double value) {
        return Double.isFinite(value)
                ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()
                : Double.toString(value);
    }

    private int show(Site site, Query query) throws InterruptedException {
        Rows.Place place = new Rows.Place("values", site, folder, state);
        return plan
                ? Rows.with(
                        place, clock, Rows.ofPlan(), this::say, rows -> new PlanView(site, rows, form(), clock).show())
                : Rows.with(place, clock, Rows.ofPoints(clock), this::say, rows -> show(site, query, rows));
    }

    private PlanView.Form form() {
        PlanView.Kind kind = csv ? PlanView.Kind.CSV : json ? PlanView.Kind.JSON : PlanView.Kind.TABLE;
        return new PlanView.Form(
                kind,
                once,
                Duration.ofMillis(Math.round(every * 1000)),
                Duration.ofMillis(Math.round(wait * 1000)),
                spec.commandLine().getOut(),
                spec.commandLine().getErr());
    }

    private int show(Site site, Query query, Rows<RowSource> rows) throws ControlException, InterruptedException {
        if (rows.source().read(query.window(0, 0), row -> {}).points() == 0) {
            say("error: no point that is read fits " + (points.isEmpty() ? "this site" : String.join(" ", points))
                    + ".");
            return ExitCode.BAD_INPUT;
        }
        LiveTable.Title title = () -> title(site, rows);
        Optional<Terminal> terminal = once || csv || json ? Optional.empty() : Terminal.ofThisProcess(System.getenv());
        return terminal.isPresent()
                ? live(terminal.get(), query, rows, site, title)
                : printed(query, rows, site, title.text());
    }

    private static String title(Site site, Rows<RowSource> rows) throws ControlException {
        String remark = rows.remark().text();
        return "site " + site.name() + ", " + (remark.isEmpty() ? "" : remark + ", ") + rows.origin();
    }

    private int live(Terminal terminal, Query query, Rows<RowSource> rows, Site site, LiveTable.Title title)
            throws ControlException, InterruptedException {
        Runtime.getRuntime().addShutdownHook(new Thread(terminal::close, "terminal"));
        try (terminal) {
            new LiveTable(
                            rows.source(),
                            query,
                            new RowTable(addresses),
                            title,
                            site.permits().isEmpty() ? List.of() : List.of(Caution.LINE),
                            clock,
                            Duration.ofMillis(Math.round(every * 1000)))
                    .show(terminal, System.in);
        }
        return ExitCode.FINE;
    }

    private int printed(Query query, Rows<RowSource> rows, Site site, String title) throws ControlException {
        int missing = awaitFirstRound(query, rows);
        PrintWriter out = new PrintWriter(new BufferedWriter(spec.commandLine().getOut()));
        RowFormat format = csv
                ? new CsvFormat()
                : json
                        ? new JsonFormat(site.name().text(), rows.origin())
                        : new TableFormat(new RowTable(addresses), title);
        if (csv || json) {
            say(title);
        }
        Summary summary = format.print(rows.source(), query, out);
        out.flush();
        if (!site.permits().isEmpty()) {
            // Beside what programs read, where a person sees it all the same.
            say("");
            Caution.FULL.forEach(this::say);
        }
        if (missing > 0) {
            say("After " + number(wait) + " s of waiting, " + missing + " of " + summary.points()
                    + " points were not read yet.");
        }
        return summary.good() == summary.points() ? ExitCode.FINE : ExitCode.WARNINGS;
    }

    /** Waits until every point was read, or its controller is known not to answer; says how many are missing. */
    private int awaitFirstRound(Query query, Rows<RowSource> rows) throws ControlException {
        long end = clock.ticks() + Math.round(wait * 1e9);
        int missing = waiting(query, rows);
        while (missing > 0 && end - clock.ticks() > 0) {
            LockSupport.parkNanos(PAUSE);
            missing = waiting(query, rows);
        }
        return missing;
    }

    private static int waiting(Query query, Rows<RowSource> rows) throws ControlException {
        return rows.source().read(query.window(0, 0), row -> {}).waiting();
    }
}
