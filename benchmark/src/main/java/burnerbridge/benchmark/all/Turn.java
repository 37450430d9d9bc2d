package burnerbridge.benchmark.all;

import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.FigureRows;
import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.Program;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** Lets one measurement run in a process of its own, and takes its figures. */
final class Turn {
    /** So long it looks at what else the machine does. */
    private static final Duration LOOK = Duration.ofSeconds(2);

    private final String starter;
    private final Path folder;
    private final MachineClock clock;
    private final Consumer<String> told;

    /**
     * @param starter the program that starts a measurement, as {@code benchmark/run}
     * @param folder for files of figures
     * @param told each line that a measurement prints
     */
    Turn(String starter, Path folder, MachineClock clock, Consumer<String> told) {
        this.starter = starter;
        this.folder = folder;
        this.clock = clock;
        this.told = told;
    }

    Outcome run(Measurement measurement, List<String> arguments) {
        double busy = Machine.busyShare(clock, LOOK);
        String load = Machine.load();
        Path file = folder.resolve(measurement.name() + ".csv");
        long begin = clock.ticks();
        String trouble = trouble(command(measurement, arguments, file));
        Duration took = Duration.ofNanos(clock.ticks() - begin);
        List<Figure> figures = figures(measurement, file);
        boolean isSilent = trouble.isEmpty() && figures.isEmpty();
        return new Outcome(measurement, arguments, load, busy, took, isSilent ? "left no figures" : trouble, figures);
    }

    private List<String> command(Measurement measurement, List<String> arguments, Path file) {
        List<String> command = new ArrayList<>(List.of(starter, measurement.command()));
        command.addAll(arguments);
        command.addAll(List.of("--figures", file.toString()));
        return command;
    }

    private String trouble(List<String> command) {
        try (Program program = Program.startWithErrors(command.toArray(new String[0]))) {
            int exitCode = program.toldUntilEnd(told);
            return exitCode == 0 ? "" : "ended with exit code " + exitCode;
        } catch (UncheckedIOException e) {
            return "could not be started: " + e.getMessage();
        }
    }

    /** Under the name that the measurement has here. */
    private List<Figure> figures(Measurement measurement, Path file) {
        try {
            return FigureRows.read(file).stream()
                    .map(figure -> figure.in(measurement.name()))
                    .toList();
        } catch (IllegalArgumentException e) {
            // It ended while it wrote.
            told.accept(e.getMessage());
            return List.of();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
