package burnerbridge.benchmark.program;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** A folder that is deleted with all it holds when it is closed. */
public final class TemporaryFolder implements AutoCloseable {
    private final Path path;

    private TemporaryFolder(Path path) {
        this.path = path;
    }

    public static TemporaryFolder create() {
        try {
            return new TemporaryFolder(Files.createTempDirectory("burner-bridge-benchmark"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public Path path() {
        return path;
    }

    @Override
    public void close() {
        try (Stream<Path> all = Files.walk(path)) {
            List<Path> deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
            for (Path one : deepestFirst) {
                Files.deleteIfExists(one);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
