package burnerbridge.benchmark.start;

import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.JavaOption;
import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.PackagedDaemon;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.IOException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Starts the daemon with the example site beside its simulated plant, with several options of Java in turn. */
@Command(
        name = "start",
        mixinStandardHelpOptions = true,
        description = {
            "How soon the daemon with the example site has a good value on the building side after its process was",
            "started, and how much memory it keeps, beside a Java that does nothing. Needs mosquitto and",
            "mosquitto-clients."
        })
public final class StartCommand implements Callable<Integer> {
    @Option(names = "--starts", defaultValue = "7", description = "Of each, in turn (${DEFAULT-VALUE}).")
    private int starts;

    @Option(
            names = "--settle",
            defaultValue = "30",
            description = "Seconds from the first values to looking at the memory, at the last start of each; 0 for not"
                    + " looking (${DEFAULT-VALUE}).")
    private int settle;

    @Option(
            names = "--flags",
            split = ",",
            defaultValue = "NONE,SERIAL,HEAP,STACK,TIERED,ARCHIVE,TOGETHER",
            description = "Options of Java: ${COMPLETION-CANDIDATES}.")
    private List<Flags> flags = List.of();

    @Mixin
    private final PackagedDaemon daemon = new PackagedDaemon();

    @Mixin
    private final JavaOption javas = new JavaOption();

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private record Kind(JavaProgram java, Flags flags) {}

    @Override
    public Integer call() throws IOException {
        StartReport report = new StartReport(spec.commandLine().getOut(), figures);
        report.say(Machine.text());
        report.say("Starts of each: " + starts + ", in turn; median (least..most). Memory "
                + (settle == 0 ? "is not looked at" : settle + " s after the first values, once") + ".");
        try (TemporaryFolder folder = TemporaryFolder.create();
                PlantProcess plant = PlantProcess.start()) {
            Starts all = new Starts(daemon.site(), daemon.classPath(), plant, folder.path(), new MachineClock());
            Map<Kind, Started> seen = seen(all);
            report.begin();
            seen.forEach((kind, started) -> report.row(kind.java().version(), kind.flags(), started));
        }
        return 0;
    }

    private Map<Kind, Started> seen(Starts all) throws IOException {
        Map<Kind, Started> seen = new LinkedHashMap<>();
        for (JavaProgram java : javas.programs()) {
            flags.forEach(each -> seen.put(new Kind(java, each), new Started()));
        }
        for (int start = 1; start <= starts; start++) {
            Duration left = Duration.ofSeconds(start == starts ? settle : 0);
            for (Map.Entry<Kind, Started> each : seen.entrySet()) {
                all.once(each.getKey().java(), each.getKey().flags(), left, each.getValue());
            }
        }
        return seen;
    }
}
