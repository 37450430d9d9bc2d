package burnerbridge.benchmark.start;

import burnerbridge.benchmark.measure.KernelText;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.Mosquitto;
import burnerbridge.benchmark.program.Program;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** Starts the daemon, and beside it a Java that does nothing, each from a folder that it has not seen. */
final class Starts {
    private static final double NANOS_PER_MILLI = 1e6;
    private static final double KIB_PER_MIB = 1024;
    /** What mosquitto takes unless told otherwise. */
    private static final int RECEIVE_MAXIMUM = 20;

    /** What does nothing has nothing to settle. */
    private static final Duration IDLE_SETTLES = Duration.ofSeconds(1);

    private static final Duration BEFORE_ARCHIVE = Duration.ofSeconds(5);
    private static final Duration TO_WRITE_ARCHIVE = Duration.ofMinutes(2);

    private final Path original;
    private final String classPath;
    private final PlantProcess plant;
    private final Path folder;
    private final MachineClock clock;
    private int count;

    /** @param original the folder of the example site */
    Starts(Path original, String classPath, PlantProcess plant, Path folder, MachineClock clock) {
        this.original = original;
        this.classPath = classPath;
        this.plant = plant;
        this.folder = folder;
        this.clock = clock;
    }

    /** One start of each; afterwards the daemon is left alone for so long, and then the memory is looked at. */
    void once(JavaProgram java, Flags flags, Duration settle, Started seen) throws IOException {
        List<String> options = flags.needsArchive() ? flags.optionsWith(archive(java, flags)) : flags.options();
        daemon(java, options, seen, daemon -> settle(daemon, settle, seen));
        idle(java, flags.options(), settle, seen);
    }

    /** Made by the first start that wants it, of what a run until its first values has loaded. */
    private Path archive(JavaProgram java, Flags flags) throws IOException {
        Path archive = folder.resolve(java.version() + "-" + flags + ".jsa");
        if (!Files.exists(archive)) {
            daemon(java, flags.optionsToMake(archive), new Started(), daemon -> {
                clock.pause(BEFORE_ARCHIVE);
                daemon.endWithin(TO_WRITE_ARCHIVE);
            });
        }
        if (!Files.exists(archive)) {
            throw new IllegalStateException("Java " + java.version() + " has left no archive of the daemon's classes;"
                    + " there can be one of jars only, not of folders: " + classPath);
        }
        return archive;
    }

    private interface Then {
        void with(Program daemon) throws IOException;
    }

    private void daemon(JavaProgram java, List<String> options, Started seen, Then then) throws IOException {
        Path own = Files.createDirectory(folder.resolve("start-" + ++count));
        try (Mosquitto broker = Mosquitto.start(own, RECEIVE_MAXIMUM)) {
            ExampleSite site = ExampleSite.copy(original, own.resolve("site"), plant, broker.port());
            try (Building building = new Building(site, broker, clock)) {
                long begin = clock.ticks();
                Path log = own.resolve("log");
                try (Program daemon = Program.startInto(log, command(java, options, own))) {
                    first(building, begin, seen, log);
                    then.with(daemon);
                }
            }
        }
    }

    private static void first(Building building, long begin, Started seen, Path log) throws IOException {
        try {
            seen.first(
                    (building.firstByMqtt() - begin) / NANOS_PER_MILLI,
                    (building.firstByBacnet() - begin) / NANOS_PER_MILLI);
        } catch (IllegalStateException e) {
            throw new IllegalStateException(e.getMessage() + ": " + Files.readString(log), e);
        }
    }

    private void settle(Program daemon, Duration settle, Started seen) throws IOException {
        if (!settle.isZero()) {
            clock.pause(settle);
            KernelText status = status(daemon);
            seen.settled(mib(status, "VmRSS:"), mib(status, "RssAnon:"));
        }
    }

    private List<String> command(JavaProgram java, List<String> options, Path own) {
        List<String> command = new ArrayList<>(List.of(java.path()));
        command.addAll(options);
        command.addAll(List.of("-cp", classPath, "burnerbridge.daemon.Main", "run"));
        command.addAll(List.of(
                own.resolve("site").toString(), "--state", own.resolve("state").toString()));
        return command;
    }

    private void idle(JavaProgram java, List<String> options, Duration settle, Started seen) throws IOException {
        long begin = clock.ticks();
        try (Program idle = Program.start(idleCommand(java, options))) {
            idle.line();
            seen.idle((clock.ticks() - begin) / NANOS_PER_MILLI);
            if (!settle.isZero()) {
                clock.pause(IDLE_SETTLES);
                seen.idleSettled(mib(status(idle), "VmRSS:"));
            }
        }
    }

    private static String[] idleCommand(JavaProgram java, List<String> options) {
        List<String> command = new ArrayList<>(List.of(java.path()));
        command.addAll(options);
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), Idle.class.getName()));
        return command.toArray(new String[0]);
    }

    private static KernelText status(Program program) throws IOException {
        return KernelText.of(Path.of("/proc", Long.toString(program.pid()), "status"));
    }

    private static double mib(KernelText status, String label) {
        return status.number(label).orElseThrow() / KIB_PER_MIB;
    }
}
