package burnerbridge.benchmark.loss;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.pace.PacedDevice;
import burnerbridge.benchmark.pace.Wire;
import burnerbridge.benchmark.program.SerialCable;
import burnerbridge.benchmark.program.Workshop;
import burnerbridge.line.Lines;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Lets controllers of a line die while it is read, and looks at the pace of the others. */
@Command(
        name = "loss",
        mixinStandardHelpOptions = true,
        description = {
            "The pace of a serial line whose controllers die and come back, in real time. The line is a pair of",
            "pseudo-terminals with a device that keeps the pace of a wire. Needs socat."
        })
public final class LossCommand implements Callable<Integer> {
    private static final int TURNAROUND = 5;
    private static final double LATE = 1100;
    private static final double WANTED = 1000;
    /** For each that is lost, in seconds: 50 reply time-outs. */
    private static final double FOUND_WITHIN = 25;

    @Option(names = "--controllers", defaultValue = "8", description = "On the line (${DEFAULT-VALUE}).")
    private int controllers;

    @Option(names = "--dead", split = ",", defaultValue = "0,1,4", description = "Of them, in turn (${DEFAULT-VALUE}).")
    private List<Integer> dead = List.of();

    @Option(names = "--seconds", defaultValue = "60", description = "Each of them for so long (${DEFAULT-VALUE}).")
    private int seconds;

    @Option(names = "--baud", defaultValue = "19200", description = "Rate (${DEFAULT-VALUE}).")
    private int baud;

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public Integer call() throws IOException {
        say(Machine.text());
        say(Machine.java());
        say(controllers + " controllers of 20 registers every second at " + baud + " baud, turnaround " + TURNAROUND
                + " ms; reply time-out 500 ms");
        say("");
        say("| dead | seconds | answers | between two of a controller, ms | longest | late by > 0.1 s"
                + " | waited in vain, % of the time | in its second half |");
        say("|---|---|---|---|---|---|---|---|");
        try (Workshop workshop = new Workshop();
                SerialCable cable = SerialCable.between(workshop.path("near"), workshop.path("far"));
                PacedDevice device = PacedDevice.start(new Wire(baud), TURNAROUND, controllers, workshop.path("far"))) {
            Site site = SharedSite.write(
                    Path.of(workshop.path("site")), new Wire(baud), workshop.path("near"), controllers);
            watch(site, device);
        }
        return 0;
    }

    private void watch(Site site, PacedDevice device) {
        LinePlan plan = LinePlan.all(site.lines(), site.points()).get(0);
        Vigil vigil = new Vigil(Lines.transport(plan.line(), clock), clock);
        ValueTable table = new ValueTable(site.points(), site.owners());
        try (LinePoller poller = new LinePoller(plan, vigil, table, clock)) {
            runUntil(poller, () -> haveAnswered(vigil, controllers, Long.MIN_VALUE / 2));
            for (int some : dead) {
                device.obey(some == 0 ? "well" : "silent of " + units(some));
                phase(some, poller, vigil);
            }
            findAgain(device, poller, vigil);
        }
    }

    private void findAgain(PacedDevice device, LinePoller poller, Vigil vigil) {
        long back = clock.ticks();
        device.obey("well");
        runUntil(poller, () -> haveAnswered(vigil, controllers, back));
        double found = (clock.ticks() - back) / 1e9;
        say("");
        say(String.format(Locale.ROOT, "When all were well again, the last was found after %.1f s.", found));
        int lost = dead.get(dead.size() - 1);
        figures.add(Figure.once("until the last of " + lost + " dead controllers that are well is found", "s", found)
                .aiming(lost == 0 ? Aim.NONE : Aim.atMost(FOUND_WITHIN * lost)));
    }

    private void phase(int some, LinePoller poller, Vigil vigil) {
        long half = Duration.ofSeconds(seconds).toNanos() / 2;
        long begin = clock.ticks();
        vigil.begin();
        runUntil(poller, () -> clock.ticks() - begin >= half);
        long waited = vigil.waited();
        runUntil(poller, () -> clock.ticks() - begin >= 2 * half);
        double[] gaps = vigil.gaps();
        Spread spread = Spread.of(gaps);
        say(String.format(
                Locale.ROOT,
                "| %d | %d | %d | %s | %.0f | %d | %.2f | %.2f |",
                some,
                seconds,
                gaps.length,
                spread.quartiles(0),
                spread.most(),
                Arrays.stream(gaps).filter(gap -> gap > LATE).count(),
                50.0 * vigil.waited() / half,
                100.0 * (vigil.waited() - waited) / half));
        tellFigures(some, spread, 50.0 * vigil.waited() / half);
    }

    private void tellFigures(int some, Spread spread, double waitedPercent) {
        String title = some + " of " + controllers + " controllers dead: ";
        figures.add(Figure.quartiles(title + "between two answers of one that lives", "ms", spread)
                .beside("wanted", WANTED));
        figures.add(Figure.once(title + "the line's time that is waited in vain", "%", waitedPercent));
    }

    private void runUntil(LinePoller poller, BooleanSupplier over) {
        while (!over.getAsBoolean()) {
            long due = poller.step();
            clock.pause(Duration.ofNanos(Math.max(0, due - clock.ticks())));
        }
    }

    private static boolean haveAnswered(Vigil vigil, int controllers, long since) {
        return IntStream.rangeClosed(1, controllers).allMatch(unit -> vigil.hasAnsweredSince(unit, since));
    }

    private static String units(int first) {
        return IntStream.rangeClosed(1, first).mapToObj(Integer::toString).collect(Collectors.joining(","));
    }

    private void say(String line) {
        PrintWriter out = spec.commandLine().getOut();
        out.println(line);
        out.flush();
    }
}
