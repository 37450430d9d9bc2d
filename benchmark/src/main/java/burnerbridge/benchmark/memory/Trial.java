package burnerbridge.benchmark.memory;

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

/** Starts the daemon within its bounds, waits until all is told, and watches it work on. */
final class Trial {
    private static final Duration LONGEST = Duration.ofMinutes(5);
    private static final Duration LOOK = Duration.ofMillis(100);
    /** What mosquitto takes unless told otherwise. */
    private static final int RECEIVE_MAXIMUM = 20;

    private final MachineClock clock;
    private final Path folder;
    private final String classPath;
    private final Duration watched;
    private int count;

    Trial(MachineClock clock, Path folder, String classPath, Duration watched) {
        this.clock = clock;
        this.folder = folder;
        this.classPath = classPath;
        this.watched = watched;
    }

    /** Fails where the daemon ends, or the kernel ends it. */
    Held run(JavaProgram java, Subject subject, Bounds bounds) throws IOException {
        Path own = Files.createDirectory(folder.resolve("memory-" + ++count));
        Path log = own.resolve("log");
        try (Mosquitto broker = Mosquitto.start(own, RECEIVE_MAXIMUM)) {
            Subject.Topics topics = subject.write(own.resolve("site"), broker);
            try (Hearer hearer = new Hearer(broker.subscriberOfTopics(topics.filters()));
                    MemoryBound bound = MemoryBound.of(bounds.bytes());
                    Program daemon = Program.startInto(log, bound.within(command(java, bounds, own)))) {
                long begin = clock.ticks();
                await(begin, hearer, topics.count(), bound, daemon, log);
                return watched(Duration.ofNanos(clock.ticks() - begin), bound, daemon, log);
            }
        }
    }

    private List<String> command(JavaProgram java, Bounds bounds, Path own) {
        List<String> command = new ArrayList<>(List.of(java.path()));
        command.addAll(bounds.options());
        command.addAll(List.of("-cp", classPath, "burnerbridge.daemon.Main", "run"));
        command.addAll(List.of(
                own.resolve("site").toString(), "--state", own.resolve("state").toString()));
        return command;
    }

    private void await(long begin, Hearer hearer, int points, MemoryBound bound, Program daemon, Path log)
            throws IOException {
        while (hearer.points() < points) {
            requireAlive(bound, daemon, log);
            if (clock.ticks() - begin > LONGEST.toNanos()) {
                throw new IllegalStateException("of " + points + " points " + hearer.points() + " were told in "
                        + LONGEST.toSeconds() + " s: " + end(log));
            }
            clock.pause(LOOK);
        }
    }

    private Held watched(Duration untilAll, MemoryBound bound, Program daemon, Path log) throws IOException {
        long begin = clock.ticks();
        Duration before = daemon.processorTime();
        clock.pause(watched);
        requireAlive(bound, daemon, log);
        Duration used = daemon.processorTime().minus(before);
        KernelText status = KernelText.of(Path.of("/proc", Long.toString(daemon.pid()), "status"));
        return new Held(
                untilAll,
                bound.mostBytes(),
                status.number("VmRSS:").orElseThrow(),
                100.0 * used.toNanos() / (clock.ticks() - begin));
    }

    private static void requireAlive(MemoryBound bound, Program daemon, Path log) throws IOException {
        if (!daemon.isAlive()) {
            throw new IllegalStateException("the daemon has ended; the kernel ended " + bound.killed()
                    + " processes for want of memory: " + end(log));
        }
    }

    private static String end(Path log) throws IOException {
        List<String> lines = Files.readAllLines(log);
        return String.join("\n", lines.subList(Math.max(0, lines.size() - 20), lines.size()));
    }
}
