package burnerbridge.daemon.box;

import burnerbridge.daemon.outside.Program;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;

/** The archive that is installed, as the build has made it; integration tests run after that. */
public final class PackedArchive {
    private static final Path FOLDER = Path.of("target").toAbsolutePath();
    private static final String PREFIX = "burner-bridge-";
    private static final String SUFFIX = ".tar.gz";

    /** One file of it, with its bytes; no folder. */
    record Packed(TarArchiveEntry entry, byte[] bytes) {}

    private PackedArchive() {}

    /** Where it lies; there is one. */
    public static Path file() {
        try (Stream<Path> all = Files.list(FOLDER)) {
            List<Path> found = all.filter(file -> file.getFileName().toString().startsWith(PREFIX)
                            && file.getFileName().toString().endsWith(SUFFIX))
                    .toList();
            if (found.size() != 1) {
                throw new AssertionError("one archive should lie in " + FOLDER + ", not " + found);
            }
            return found.get(0);
        } catch (IOException e) {
            throw new AssertionError("the archive is made by the build: " + FOLDER, e);
        }
    }

    /** The name of the one folder in it. */
    public static String top() {
        String name = file().getFileName().toString();
        return name.substring(0, name.length() - SUFFIX.length());
    }

    /** The version that its name has. */
    public static String version() {
        return top().substring(PREFIX.length());
    }

    /** Everything in it, folders too, in its order. */
    static List<TarArchiveEntry> entries() throws IOException {
        List<TarArchiveEntry> entries = new ArrayList<>();
        read((tar, entry) -> entries.add(entry));
        return entries;
    }

    /** Its files by their path within the one folder. */
    static Map<String, Packed> files() throws IOException {
        Map<String, Packed> files = new LinkedHashMap<>();
        read((tar, entry) -> {
            if (entry.isFile()) {
                files.put(entry.getName().substring(top().length() + 1), new Packed(entry, tar.readAllBytes()));
            }
        });
        return files;
    }

    /** Unpacks it as a person does, and answers with the folder that came out. */
    public static Path unpacked(Path into) throws IOException {
        Files.createDirectories(into);
        try (Program tar = Program.start(
                into.resolve("tar.log"),
                List.of("tar", "-C", into.toString(), "--no-same-owner", "-xzf", file().toString()))) {
            if (tar.awaitEnd() != 0) {
                throw new AssertionError(tar.said());
            }
        }
        return into.resolve(top());
    }

    private interface Visitor {
        void visit(InputStream tar, TarArchiveEntry entry) throws IOException;
    }

    private static void read(Visitor visitor) throws IOException {
        try (TarArchiveInputStream tar =
                new TarArchiveInputStream(new GZIPInputStream(new BufferedInputStream(Files.newInputStream(file()))))) {
            for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
                visitor.visit(tar, entry);
            }
        }
    }
}
