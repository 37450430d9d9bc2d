package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.Program;
import burnerbridge.benchmark.program.SerialCable;
import burnerbridge.benchmark.program.Workshop;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import java.time.Duration;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Reads over TCP and over a serial cable, in turn with a client in C that asks the same server. */
@Command(
        name = "transactions",
        mixinStandardHelpOptions = true,
        description = "How long one read takes, beside libmodbus in C. Needs cc, libmodbus-dev and socat.")
public final class TransactionsCommand implements Runnable {
    private static final String LOOPBACK = "127.0.0.1";
    private static final int BAUD = 115_200;
    private static final Aim TO_LIBMODBUS = Aim.ratioAtMost(1.3);
    /** Longer than the silence that a frame must keep from the one before it, at that rate 1.75 ms. */
    private static final Duration PAUSE = Duration.ofMillis(2);

    @Option(names = "--rounds", defaultValue = "20", description = "Measured rounds of each side (${DEFAULT-VALUE}).")
    private int rounds;

    @Option(names = "--warm-rounds", defaultValue = "5", description = "Rounds before them (${DEFAULT-VALUE}).")
    private int warmRounds;

    @Option(names = "--reads", defaultValue = "2000", description = "Reads a round on TCP (${DEFAULT-VALUE}).")
    private int reads;

    @Option(
            names = "--slow-reads",
            defaultValue = "300",
            description = "Reads a round where each waits for silence (${DEFAULT-VALUE}).")
    private int slowReads;

    @Option(names = "--registers", split = ",", defaultValue = "1,10,125", description = "Registers of a read.")
    private List<Integer> registers = List.of();

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public void run() {
        Report report = new Report(spec.commandLine().getOut(), figures);
        try (Workshop workshop = new Workshop()) {
            String server = workshop.compiled("server");
            String client = workshop.compiled("client");
            tellWhatRuns(report);
            onTcp(report, server, client);
            onSerial(report, server, client, workshop);
            behindTcp(report, server, workshop);
        }
    }

    private void tellWhatRuns(Report report) {
        report.say(Machine.text());
        report.say(Machine.java());
        report.say(firstLine(Program.output("cc", "--version")) + ", -O2");
        report.say("Rounds of each side: " + rounds + " after " + warmRounds + " unmeasured; reads a round: " + reads
                + ", with pauses or silence " + slowReads);
        report.say("µs: median (quartiles) of all reads. Ratio over rounds: median (least..most).");
    }

    private static String firstLine(String text) {
        return text.lines().findFirst().orElse("");
    }

    private void onTcp(Report report, String server, String client) {
        try (FieldDevice device = FieldDevice.onTcp(server);
                Ours ours = new Ours(new LineDefinition.Tcp(LOOPBACK, device.port()), clock);
                Reference reference = Reference.onTcp(client, device.port())) {
            report.say("Server and reference: " + device.library());
            List<Side> sides = List.of(ours, reference);
            both(report, "Modbus TCP, one read after the other", sides, reads, Duration.ZERO, TO_LIBMODBUS);
            both(
                    report,
                    "Modbus TCP, 2 ms after the read before (not measured)",
                    sides,
                    slowReads,
                    PAUSE,
                    TO_LIBMODBUS);
        }
    }

    private void onSerial(Report report, String server, String client, Workshop workshop) {
        String near = workshop.path("near");
        String far = workshop.path("far");
        try (SerialCable cable = SerialCable.between(near, far);
                FieldDevice device = FieldDevice.onSerial(server, far);
                Ours ours = new Ours(serial(near), clock);
                Reference reference = Reference.onSerial(client, near)) {
            List<Side> sides = List.of(ours, reference);
            both(
                    report,
                    "RTU on a pty, 2 ms after the read before (not measured)",
                    sides,
                    slowReads,
                    PAUSE,
                    TO_LIBMODBUS);
            both(
                    report,
                    "RTU on a pty, one read after the other: ours with its silence of 1.75 ms, libmodbus without any",
                    sides,
                    slowReads,
                    Duration.ZERO,
                    Aim.NONE);
        }
    }

    private static LineDefinition.Serial serial(String port) {
        return new LineDefinition.Serial(port, BAUD, Parity.NONE, 1, Rs485.AUTO, false);
    }

    private void behindTcp(Report report, String server, Workshop workshop) {
        String far = workshop.path("behind-tcp");
        try (SerialCable cable = SerialCable.behindTcp(far);
                FieldDevice device = FieldDevice.onSerial(server, far);
                Ours ours = new Ours(new LineDefinition.RtuOverTcp(LOOPBACK, cable.port(), BAUD), clock)) {
            report.beginOurs("RTU over TCP to a pty, 2 ms after the read before (not measured); ours alone");
            for (int count : registers) {
                Asked asked = new Asked(count, slowReads, PAUSE);
                report.ours(asked, contest().between(List.of(ours), asked).get(0));
            }
        }
    }

    private void both(Report report, String title, List<Side> sides, int readsInRound, Duration pause, Aim aim) {
        report.beginBoth(title, aim);
        for (int count : registers) {
            Asked asked = new Asked(count, readsInRound, pause);
            report.both(asked, contest().between(sides, asked));
        }
    }

    private Contest contest() {
        return new Contest(warmRounds, rounds);
    }
}
