package burnerbridge.benchmark.measure;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Where a command leaves its figures for programs, besides what it prints for people. A mixin of each command. */
public final class Figures {
    @Option(names = "--figures", paramLabel = "FILE", description = "Writes the figures to it too, as CSV.")
    private @Nullable Path file;

    @Spec(Spec.Target.MIXEE)
    @SuppressWarnings("NullAway.Init")
    private CommandSpec command;

    private boolean begun;

    /** Writes it at once, so that what was measured stays where the run fails later. */
    public void add(Figure figure) {
        Path to = file;
        if (to == null) {
            return;
        }
        try {
            if (!begun) {
                Files.write(to, List.of(FigureRows.HEADER));
                begun = true;
            }
            Files.write(to, List.of(FigureRows.row(figure.in(command.name()))), StandardOpenOption.APPEND);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
