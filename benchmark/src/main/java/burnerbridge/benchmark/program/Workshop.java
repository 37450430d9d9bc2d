package burnerbridge.benchmark.program;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/** Where the programs in C are compiled and serial cables have their ends. */
public final class Workshop implements AutoCloseable {
    private final TemporaryFolder folder = TemporaryFolder.create();

    /** Compiles one of our sources with libmodbus; says where the program is. */
    public String compiled(String name) {
        Path source = folder.path().resolve(name + ".c");
        try (InputStream text = Objects.requireNonNull(Workshop.class.getResourceAsStream(name + ".c"))) {
            Files.copy(text, source);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        String program = path(name);
        Program.output("cc", "-O2", "-o", program, source.toString(), "-lmodbus");
        return program;
    }

    public String path(String name) {
        return folder.path().resolve(name).toString();
    }

    @Override
    public void close() {
        folder.close();
    }
}
