package burnerbridge.config;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * A copy of the site folder that the bridge accepted last, in the state folder, for when the site folder has become wrong
 * or is gone. It is replaced as a whole, so that a power cut leaves the former one or the new one.
 */
public final class LastAccepted {
    private static final String NAME = "accepted-site";

    private final Path folder;
    private final Path former;
    private final Path next;

    public LastAccepted(Path stateFolder) {
        this.folder = stateFolder.resolve(NAME);
        this.former = stateFolder.resolve(NAME + ".former");
        this.next = stateFolder.resolve(NAME + ".new");
    }

    /** Where it is; empty where there is none. */
    public Optional<Path> folder() {
        return Stream.of(folder, former)
                .filter(one -> Files.isDirectory(one, LinkOption.NOFOLLOW_LINKS))
                .findFirst();
    }

    /** When it was accepted, by the clock of then; empty where there is none. */
    public Optional<Instant> at() {
        return folder().map(present -> {
            try {
                return Files.getLastModifiedTime(present).toInstant();
            } catch (IOException e) {
                return Instant.EPOCH;
            }
        });
    }

    /**
     * Keeps the files that a site consists of, where they are not the ones that are kept already.
     *
     * @param accepted without errors
     * @return whether anything was written
     * @throws IOException where it cannot be kept, or has a file outside of its folder; what was kept before still is
     */
    public boolean keep(SiteFolder accepted) throws IOException {
        Map<String, byte[]> files = files(accepted);
        Optional<Path> present = folder();
        if (present.isPresent() && isSame(present.get(), files)) {
            return false;
        }
        delete(next);
        Files.createDirectory(next, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
        for (Map.Entry<String, byte[]> file : files.entrySet()) {
            write(next.resolve(file.getKey()), file.getValue());
        }
        if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
            delete(former);
            Files.move(folder, former);
        }
        Files.move(next, folder);
        delete(former);
        return true;
    }

    /** Whether what is kept is just what a site folder has now. */
    public boolean isKept(SiteFolder other) throws IOException {
        Optional<Path> present = folder();
        return present.isPresent() && isSame(present.get(), files(other));
    }

    private static Map<String, byte[]> files(SiteFolder accepted) throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        Path root = accepted.folder().toAbsolutePath().normalize();
        for (String name : accepted.files()) {
            Path file = root.resolve(name).normalize();
            if (!file.startsWith(root)) {
                throw new IOException(name + " is outside of the site folder");
            }
            if (Files.exists(file)) {
                files.put(root.relativize(file).toString(), Files.readAllBytes(file));
            }
        }
        return files;
    }

    private static boolean isSame(Path kept, Map<String, byte[]> files) throws IOException {
        try (Stream<Path> all = Files.walk(kept)) {
            List<Path> present = all.filter(Files::isRegularFile).toList();
            if (present.size() != files.size()) {
                return false;
            }
            for (Path file : present) {
                byte[] wanted = files.get(kept.relativize(file).toString());
                if (wanted == null || !Arrays.equals(wanted, Files.readAllBytes(file))) {
                    return false;
                }
            }
            return true;
        }
    }

    /** On the disk for good before the folder gets its name. */
    private static void write(Path file, byte[] bytes) throws IOException {
        Path parent = file.getParent();
        if (parent != null) {
            Files.createDirectories(
                    parent, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
        }
        try (FileChannel channel = FileChannel.open(
                file,
                Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
                PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")))) {
            ByteBuffer all = ByteBuffer.wrap(bytes);
            while (all.hasRemaining()) {
                channel.write(all);
            }
            channel.force(true);
        }
    }

    private static void delete(Path tree) throws IOException {
        if (!Files.exists(tree, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        List<Path> all = new ArrayList<>();
        try (Stream<Path> walk = Files.walk(tree)) {
            walk.sorted(Comparator.reverseOrder()).forEach(all::add);
        }
        for (Path path : all) {
            Files.delete(path);
        }
    }
}
