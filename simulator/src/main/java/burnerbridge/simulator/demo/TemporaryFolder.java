package burnerbridge.simulator.demo;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A folder that goes away with the demo, unless it is to be kept. */
final class TemporaryFolder implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(TemporaryFolder.class);

    private final Path path;
    private boolean kept;

    private TemporaryFolder(Path path) {
        this.path = path;
    }

    /** Takes over a folder that exists. */
    static TemporaryFolder of(Path path) {
        return new TemporaryFolder(path);
    }

    static TemporaryFolder make() throws IOException {
        // A short name, since people are to type it.
        Path tidy = Path.of(
                System.getProperty("java.io.tmpdir"),
                "burner-bridge-demo-" + ProcessHandle.current().pid());
        try {
            return of(Files.createDirectory(
                    tidy, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"))));
        } catch (FileAlreadyExistsException | UnsupportedOperationException e) {
            return of(Files.createTempDirectory("burner-bridge-demo-"));
        }
    }

    Path path() {
        return path;
    }

    /** Leaves it where it is. */
    void keep() {
        kept = true;
    }

    @Override
    public void close() {
        if (kept || !Files.exists(path)) {
            return;
        }
        try (Stream<Path> walk = Files.walk(path)) {
            List<Path> deepestFirst = walk.sorted(Comparator.reverseOrder()).toList();
            for (Path each : deepestFirst) {
                Files.deleteIfExists(each);
            }
        } catch (IOException e) {
            LOG.warn("temporary folder {}: not all of it could be deleted: {}", path, e.toString());
        }
    }
}
