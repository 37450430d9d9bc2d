package burnerbridge.benchmark.bacnet.hostile;

import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.bacnet.device.Side;
import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.ChildOptions;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** A client that asks politely, before, while and after others are hostile. */
@Command(
        name = "hostile",
        mixinStandardHelpOptions = true,
        description = "What a polite BACnet client, memory and log notice of a peer that subscribes to everything and"
                + " never acknowledges, one that floods, and one that sends damaged frames.")
public final class HostileCommand implements Runnable {
    private static final double BOUND = 2;

    @Option(names = "--objects", defaultValue = "1000", description = "All change each second (${DEFAULT-VALUE}).")
    private int objects;

    @Option(names = "--seconds", defaultValue = "120", description = "Of hostility (${DEFAULT-VALUE}).")
    private int seconds;

    @Option(names = "--quiet", defaultValue = "30", description = "Seconds before and after it (${DEFAULT-VALUE}).")
    private int quiet;

    @Option(names = "--warm", defaultValue = "20", description = "Seconds before all that (${DEFAULT-VALUE}).")
    private int warm;

    @Option(names = "--asks", defaultValue = "100", description = "Polite reads a second (${DEFAULT-VALUE}).")
    private int asks;

    @Option(names = "--flood", defaultValue = "20000", description = "Datagrams a second (${DEFAULT-VALUE}).")
    private int flood;

    @Option(names = "--mutations", defaultValue = "100000", description = "Damaged frames in all (${DEFAULT-VALUE}).")
    private int mutations;

    @Option(names = "--seed", defaultValue = "20261128", description = "Of the damage (${DEFAULT-VALUE}).")
    private long seed;

    @Mixin
    private final ChildOptions child = new ChildOptions("128m");

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public void run() {
        PrintWriter out = spec.commandLine().getOut();
        say(out, Machine.text());
        say(out, Machine.java());
        say(
                out,
                objects + " objects that all change each second, -Xmx" + child.heap() + ", " + Side.USUAL.title()
                        + "; damage of seed " + seed);
        try (TemporaryFolder folder = TemporaryFolder.create()) {
            Path log = folder.path().resolve("device.log");
            try (Device device = Device.startWithLog(Side.USUAL, objects, child, log)) {
                device.changeEverySecond();
                try (PoliteClient client = new PoliteClient(device, asks, clock)) {
                    observe(out, new Observed(device, client, log, clock));
                }
            }
        }
    }

    private void observe(PrintWriter out, Observed observed) {
        observed.phase(Duration.ofSeconds(warm));
        say(out, "");
        say(out, Observed.HEADER);
        say(out, Observed.RULE);
        Observed.Phase before = told(out, "before", observed.phase(Duration.ofSeconds(quiet)));
        Duration half = Duration.ofSeconds(seconds).dividedBy(2);
        Observed.Phase first;
        Observed.Phase second;
        String sent;
        try (Attacks attacks = Attacks.start(observed.device(), flood, Math.max(1, mutations / seconds), seed, clock)) {
            first = told(out, "hostile, first half", observed.phase(half));
            second = told(out, "hostile, second half", observed.phase(half));
            sent = attacks.sent();
        }
        Observed.Phase after = told(out, "after", observed.phase(Duration.ofSeconds(quiet)));
        say(out, "");
        say(out, "Sent: " + sent);
        say(out, "The device: " + observed.device().state());
        verdict(out, both(before, after), both(first, second), first, second);
    }

    private static Observed.Phase told(PrintWriter out, String name, Observed.Phase phase) {
        say(out, phase.row(name));
        return phase;
    }

    private static Delays both(Observed.Phase one, Observed.Phase other) {
        Delays delays = new Delays();
        delays.addAll(one.delays());
        delays.addAll(other.delays());
        return delays;
    }

    private void verdict(PrintWriter out, Delays quiet, Delays hostile, Observed.Phase first, Observed.Phase second) {
        double ratio = (double) hostile.within(Observed.P99) / quiet.within(Observed.P99);
        say(
                out,
                String.format(
                        Locale.ROOT,
                        "p99 while hostile to p99 while quiet: %.2f (aim: at most %.0f); resident memory, second half to first: %.2f",
                        ratio,
                        BOUND,
                        second.residentMib() / first.residentMib()));
        tellFigures(quiet, hostile, first, second);
    }

    private void tellFigures(Delays quiet, Delays hostile, Observed.Phase first, Observed.Phase second) {
        figures.add(Figure.once("99 of 100 polite reads within", "µs", hostile.within(Observed.P99) / 1e3)
                .beside("before and after", quiet.within(Observed.P99) / 1e3)
                .aiming(Aim.ratioAtMost(BOUND)));
        figures.add(Figure.once("polite reads lost of 1000", "", lostOfThousand(hostile, first, second)));
        figures.add(Figure.once("resident memory, second half", "MiB", second.residentMib())
                .beside("first half", first.residentMib()));
        figures.add(Figure.once("log lines a minute, second half", "", second.logLinesPerMinute())
                .beside("first half", first.logLinesPerMinute()));
    }

    private static double lostOfThousand(Delays answered, Observed.Phase first, Observed.Phase second) {
        int lost = first.lost() + second.lost();
        return 1000.0 * lost / Math.max(1, answered.count() + lost);
    }

    private static void say(PrintWriter out, String line) {
        out.println(line);
        out.flush();
    }
}
