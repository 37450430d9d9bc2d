package burnerbridge.benchmark.memory;

import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.JavaOption;
import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.PackagedDaemon;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Runs the daemon within a limit of memory, and without one in turn. */
@Command(
        name = "memory",
        mixinStandardHelpOptions = true,
        description = {
            "Whether the daemon holds within a limit of memory, as a container has one: with the example site, and with",
            "many points, all of them on MQTT and 10,000 objects on BACnet. In turn with the same without a limit.",
            "Needs the right to make a control group, mosquitto and mosquitto-clients."
        })
public final class MemoryCommand implements Callable<Integer> {
    /** Those of {@code container/java-options} that decide about memory; a test holds them against it. */
    static final String AS_IN_THE_IMAGE =
            "-XX:MinRAMPercentage=35 -XX:MaxRAMPercentage=60 -XX:+UseSerialGC -XX:TieredStopAtLevel=1";

    @Option(
            names = "--demo-limit",
            defaultValue = "160",
            description = "Megabytes for the example site (${DEFAULT-VALUE}).")
    private int demoLimit;

    @Option(names = "--limit", defaultValue = "512", description = "Megabytes for many points (${DEFAULT-VALUE}).")
    private int limit;

    @Option(
            names = "--options",
            defaultValue = AS_IN_THE_IMAGE,
            description = "Options of Java where there is a limit, parted at blanks; without it those of the image:"
                    + " ${DEFAULT-VALUE}.")
    private String options = "";

    @Option(
            names = "--controllers",
            defaultValue = "1000",
            description = "Of the many points, a TCP line each (${DEFAULT-VALUE}).")
    private int controllers;

    @Option(names = "--points", defaultValue = "100", description = "Points a controller (${DEFAULT-VALUE}).")
    private int points;

    @Option(names = "--every", defaultValue = "10", description = "Seconds in which each is read (${DEFAULT-VALUE}).")
    private int every;

    @Option(names = "--rounds", defaultValue = "2", description = "Runs of each (${DEFAULT-VALUE}).")
    private int rounds;

    @Option(
            names = "--seconds",
            defaultValue = "60",
            description = "For which it is watched once all points are told (${DEFAULT-VALUE}).")
    private int seconds;

    @Mixin
    private final PackagedDaemon daemon = new PackagedDaemon();

    @Mixin
    private final JavaOption javas = new JavaOption();

    @Mixin
    private final Figures figures = new Figures();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        MemoryReport report = new MemoryReport(spec.commandLine().getOut(), figures);
        report.say(Machine.text());
        report.say("Each point every " + every + " s; watched for " + seconds + " s once all are told; runs of each: "
                + rounds + "; where there is a limit, with " + options);
        List<String> whenLimited = List.of(options.split(" +"));
        try (TemporaryFolder folder = TemporaryFolder.create();
                Subject demo = Subject.demo(daemon.site());
                Subject large = Subject.large(controllers, points, every)) {
            Trial trial = new Trial(new MachineClock(), folder.path(), daemon.classPath(), Duration.ofSeconds(seconds));
            report.begin();
            for (JavaProgram java : javas.programs()) {
                compare(trial, java, demo, new Bounds(demoLimit, whenLimited), report);
                compare(trial, java, large, new Bounds(limit, whenLimited), report);
            }
        }
        return 0;
    }

    private void compare(Trial trial, JavaProgram java, Subject subject, Bounds bounds, MemoryReport report)
            throws IOException {
        List<Held> held = new ArrayList<>();
        List<Held> free = new ArrayList<>();
        for (int round = 0; round < rounds; round++) {
            held.add(trial.run(java, subject, bounds));
            report.row(java, subject, bounds, held.get(round));
            free.add(trial.run(java, subject, bounds.lifted()));
            report.row(java, subject, bounds.lifted(), free.get(round));
        }
        report.end(java, subject, bounds, held, free);
    }
}
