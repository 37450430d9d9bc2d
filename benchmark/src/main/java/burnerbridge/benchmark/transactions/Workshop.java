package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.program.Program;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/** A temporary folder in which the programs in C are compiled and serial cables have their ends. */
final class Workshop implements AutoCloseable {
    private final Path folder;

    Workshop() {
        try {
            folder = Files.createTempDirectory("burner-bridge-benchmark");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Compiles one of our sources with libmodbus; says where the program is. */
    String compiled(String name) {
        Path source = folder.resolve(name + ".c");
        try (InputStream text = Objects.requireNonNull(Workshop.class.getResourceAsStream(name + ".c"))) {
            Files.copy(text, source);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        String program = path(name);
        Program.output("cc", "-O2", "-o", program, source.toString(), "-lmodbus");
        return program;
    }

    String path(String name) {
        return folder.resolve(name).toString();
    }

    @Override
    public void close() {
        try (Stream<Path> all = Files.walk(folder)) {
            List<Path> deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
            for (Path path : deepestFirst) {
                Files.deleteIfExists(path);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
