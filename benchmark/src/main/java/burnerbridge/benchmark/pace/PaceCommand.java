package burnerbridge.benchmark.pace;

import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.program.SerialCable;
import burnerbridge.benchmark.program.Workshop;
import burnerbridge.line.Lines;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.LinePoller;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Holds what a scan takes against what was predicted for it, at several rates and turnarounds. */
@Command(
        name = "pace",
        mixinStandardHelpOptions = true,
        description = {
            "A scan of a serial line beside what was predicted for it. The line is a pair of pseudo-terminals with a",
            "device that keeps the pace of a wire, and libmodbus in C says whether it does.",
            "Needs cc, libmodbus-dev and socat."
        })
public final class PaceCommand implements Callable<Integer> {
    private static final int FEW = 10;
    private static final int MANY = 125;

    @Option(names = "--baud", split = ",", defaultValue = "9600,19200,38400", description = "Rates.")
    private List<Integer> bauds = List.of();

    @Option(names = "--turnaround", split = ",", defaultValue = "0,5,20", description = "Milliseconds.")
    private List<Integer> turnarounds = List.of();

    @Option(names = "--scans", defaultValue = "15", description = "Scans of each (${DEFAULT-VALUE}).")
    private int scans;

    @Option(names = "--reads", defaultValue = "15", description = "Reads of libmodbus of each (${DEFAULT-VALUE}).")
    private int reads;

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public Integer call() throws IOException {
        PaceReport report = new PaceReport(spec.commandLine().getOut(), figures);
        report.say(Machine.text());
        report.say(Machine.java());
        try (Workshop workshop = new Workshop()) {
            Bench bench = new Bench(workshop, workshop.compiled("client"));
            List<Seen> all = new ArrayList<>();
            report.beginMaster();
            for (int baud : bauds) {
                for (int turnaround : turnarounds) {
                    Seen seen = bench.seen(new Wire(baud), turnaround);
                    report.master(seen);
                    all.add(seen);
                }
            }
            report.beginScans();
            for (Seen seen : all) {
                bench.scan(seen, report);
            }
        }
        return 0;
    }

    /** Where the device stands. */
    private final class Bench {
        private final Workshop workshop;
        private final String client;

        Bench(Workshop workshop, String client) {
            this.workshop = workshop;
            this.client = client;
        }

        private SerialCable cable() {
            return SerialCable.between(near(), far());
        }

        private String near() {
            return workshop.path("near");
        }

        private String far() {
            return workshop.path("far");
        }

        Seen seen(Wire wire, int turnaround) {
            try (SerialCable cable = cable();
                    PacedDevice device = PacedDevice.start(wire, turnaround, 1, far());
                    IndependentMaster master = new IndependentMaster(client, wire, near())) {
                return new Seen(wire, turnaround, master.millis(FEW, reads), master.millis(MANY, reads));
            }
        }

        void scan(Seen seen, PaceReport report) throws IOException {
            Path folder = Path.of(workshop.path("site-" + seen.wire().baud() + "-" + seen.turnaround()));
            Site site = PacedSite.write(folder, seen.wire(), near());
            LinePlan plan = LinePlan.all(site.lines(), site.points()).get(0);
            try (SerialCable cable = cable();
                    PacedDevice device = PacedDevice.start(seen.wire(), seen.turnaround(), 2, far())) {
                report.scan(seen, plan, scanned(plan, site));
            }
        }
    }

    /**
     * What libmodbus saw of one device.
     *
     * @param turnaround that it was told, in milliseconds
     */
    record Seen(Wire wire, int turnaround, Spread few, Spread many) {

        /** What it takes to turn round, with the ways through the machine, in milliseconds. */
        double real() {
            return (wire.turnaroundMillis(FEW, few.median()) + wire.turnaroundMillis(MANY, many.median())) / 2;
        }

        double fewRatio() {
            return few.median() / wire.transactionMillis(FEW, turnaround);
        }

        double manyRatio() {
            return many.median() / wire.transactionMillis(MANY, turnaround);
        }
    }

    /** How long scans take, in milliseconds. The first is left out: it lies behind the opening of the port. */
    private Spread scanned(LinePlan plan, Site site) {
        ValueTable table = new ValueTable(site.points(), site.owners());
        ScanTimer timer = new ScanTimer(Lines.transport(plan.line(), clock), clock);
        try (LinePoller poller = new LinePoller(plan, timer, table, clock)) {
            while (timer.scans() < scans + 1) {
                long due = poller.step();
                clock.pause(Duration.ofNanos(Math.max(0, due - clock.ticks())));
            }
        }
        return Spread.of(Arrays.copyOfRange(timer.millis(), 1, timer.scans()));
    }
}
