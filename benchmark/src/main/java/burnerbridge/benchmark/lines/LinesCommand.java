package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.ChildOptions;
import burnerbridge.benchmark.program.JavaOption;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Runs the daemon against many lines, with each Java and kind of thread in turn. */
@Command(
        name = "lines",
        mixinStandardHelpOptions = true,
        description = "What many TCP lines cost the real daemon, on platform and on virtual threads.")
public final class LinesCommand implements Callable<Integer> {
    @Option(names = "--lines", defaultValue = "1000", description = "TCP lines, a controller each (${DEFAULT-VALUE}).")
    private int lines;

    @Option(names = "--points", defaultValue = "10", description = "Points a controller (${DEFAULT-VALUE}).")
    private int points;

    @Option(
            names = "--reads",
            split = ",",
            defaultValue = "1,10",
            description = "Reads of a controller by which they come, one load for each (${DEFAULT-VALUE}).")
    private List<Integer> reads = List.of();

    @Option(names = "--rounds", defaultValue = "2", description = "Runs of each (${DEFAULT-VALUE}).")
    private int rounds;

    @Option(names = "--warm", defaultValue = "20", description = "Seconds before measuring (${DEFAULT-VALUE}).")
    private int warm;

    @Option(names = "--seconds", defaultValue = "30", description = "Seconds measured (${DEFAULT-VALUE}).")
    private int seconds;

    @Mixin
    private final ChildOptions child = new ChildOptions("256m");

    @Mixin
    private final JavaOption javas = new JavaOption();

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        Descriptors.require(lines);
        PrintWriter out = spec.commandLine().getOut();
        out.println(Machine.text());
        out.println("Plant: " + Machine.java());
        out.println("The daemon: -Xmx" + child.heap() + ", measured for " + seconds + " s after " + warm + " s; runs: "
                + rounds);
        try (TemporaryFolder folder = TemporaryFolder.create()) {
            Trial trial = new Trial(
                    new MachineClock(), folder.path(), child, Duration.ofSeconds(warm), Duration.ofSeconds(seconds));
            for (int each : reads) {
                compare(trial, new Load(lines, points, each), new LinesReport(out, figures));
            }
        }
        return 0;
    }

    private void compare(Trial trial, Load load, LinesReport report) throws IOException {
        List<Contestant> contestants = javas.programs().stream()
                .flatMap(java -> Contestant.of(java).stream())
                .toList();
        Map<Contestant, List<Measured>> runs = new LinkedHashMap<>();
        report.begin(load);
        for (int round = 0; round < rounds; round++) {
            for (Contestant contestant : contestants) {
                Measured measured = trial.run(load, contestant);
                report.run(load, contestant, measured);
                runs.computeIfAbsent(contestant, c -> new ArrayList<>()).add(measured);
            }
        }
        report.end(load, runs);
    }
}
