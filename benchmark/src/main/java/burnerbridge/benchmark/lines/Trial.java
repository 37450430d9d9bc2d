package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.ChildOptions;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;

/** Starts a plant and the daemon, waits until all is read, lets it become warm, and watches. */
final class Trial {
    private static final Duration LONGEST_START = Duration.ofMinutes(2);
    private static final Duration LOOK = Duration.ofMillis(100);

    private final MachineClock clock;
    private final Path folder;
    private final ChildOptions child;
    private final Duration warm;
    private final Duration watched;

    Trial(MachineClock clock, Path folder, ChildOptions child, Duration warm, Duration watched) {
        this.clock = clock;
        this.folder = folder;
        this.child = child;
        this.warm = warm;
        this.watched = watched;
    }

    Measured run(Load load, Contestant contestant) throws IOException {
        Path log = folder.resolve("daemon.log");
        try (Plant plant = Plant.open(load, clock)) {
            GeneratedSite.write(folder.resolve("site"), load, plant.ports());
            try (Daemon daemon = Daemon.start(contestant, child, folder.resolve("site"), log)) {
                awaitAll(plant, daemon, log);
                clock.pause(warm);
                return watch(plant.arrivals(), daemon);
            }
        }
    }

    private void awaitAll(Plant plant, Daemon daemon, Path log) throws IOException {
        long end = clock.ticks() + LONGEST_START.toNanos();
        while (!plant.arrivals().isComplete()) {
            if (!daemon.isAlive() || clock.ticks() - end > 0) {
                throw new IllegalStateException("the daemon does not read every line: " + Files.readString(log));
            }
            clock.pause(LOOK);
        }
    }

    private Measured watch(Arrivals arrivals, Daemon daemon) throws IOException {
        long begin = clock.ticks();
        arrivals.watchFrom(begin);
        Duration daemonBefore = daemon.processorTime();
        Duration plantBefore = ownTime();
        clock.pause(watched);
        long end = clock.ticks();
        Arrivals.Seen seen = arrivals.seenUntil(end);
        return new Measured(
                seen,
                Duration.ofNanos(end - begin),
                daemon.processorTime().minus(daemonBefore),
                ownTime().minus(plantBefore),
                daemon.state());
    }

    private static Duration ownTime() {
        return ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO);
    }
}
