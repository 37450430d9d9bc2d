package burnerbridge.write.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedByInterruptException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Files in a folder of the state folder, for their user only. The folder is made at the first write; reading makes
 * nothing. No symbolic link is followed, and a file that somebody took away while it was in use is an error, since what is
 * written to it is in no folder any more. An interrupt of the thread ends nothing half-way: it is seen afterwards.
 */
public final class FolderDisk implements Disk, AutoCloseable {
    /** Room for some hundred records of silence actions. */
    public static final int USUAL_RESERVE = 64 * 1024;

    private static final String FOLDER = "writes";
    private static final String RESERVE = "reserve";
    private static final String NEW = ".new";
    private static final Pattern NAME = Pattern.compile("[a-z0-9]+([.-][a-z0-9]+)*");
    private static final Set<PosixFilePermission> FOR_ITS_USER_ONLY = PosixFilePermissions.fromString("rwx------");
    private static final FileAttribute<Set<PosixFilePermission>> FILE_FOR_ITS_USER_ONLY =
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));

    private final Path folder;
    private final int reserve;
    private final Map<String, Kept> kept = new HashMap<>();

    /** A file that stays open for what is added to it. */
    private static final class Kept {
        private final FileChannel channel;
        private final @Nullable Object key;
        /** Whether the folder's own entry of it was forced. */
        private boolean entered;

        private Kept(FileChannel channel, @Nullable Object key) {
            this.channel = channel;
            this.key = key;
        }
    }

    @FunctionalInterface
    private interface Doing<T> {
        T run() throws IOException;
    }

    /** @param folder that this alone writes to */
    public FolderDisk(Path folder) {
        this(folder, USUAL_RESERVE);
    }

    /** @param reserve how many bytes are kept for what must be written on a full disk, 0 or more */
    public FolderDisk(Path folder, int reserve) {
        if (reserve < 0) {
            throw new IllegalArgumentException("a reserve has 0 bytes or more (was " + reserve + ")");
        }
        this.folder = folder;
        this.reserve = reserve;
    }

    /** Where a state folder has them. */
    public static Path in(Path stateFolder) {
        return stateFolder.resolve(FOLDER);
    }

    @Override
    public synchronized byte[] read(String name) throws IOException {
        Path file = file(name);
        return doing(file, "read", () -> {
            if (!isThere(file)) {
                return new byte[0];
            }
            try (FileChannel channel =
                    FileChannel.open(file, Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS))) {
                return all(channel);
            } catch (NoSuchFileException e) {
                return new byte[0];
            }
        });
    }

    private static byte[] all(FileChannel channel) throws IOException {
        ByteBuffer content = ByteBuffer.allocate(Math.toIntExact(channel.size()));
        while (content.hasRemaining() && channel.read(content) >= 0) {
            // A read may bring less than was asked for.
        }
        byte[] bytes = new byte[content.position()];
        content.flip().get(bytes);
        return bytes;
    }

    @Override
    public synchronized void replace(String name, byte[] content) throws IOException {
        Path file = file(name);
        Path whole = folder.resolve(name + NEW);
        doing(file, "written", () -> {
            make();
            // As it may be left over, or a link that somebody put there.
            Files.deleteIfExists(whole);
            try {
                writeNew(whole, content);
                isThere(file);
                letGo(name);
                Files.move(whole, file, StandardCopyOption.ATOMIC_MOVE);
            } catch (IOException e) {
                withdraw(whole, e);
                throw e;
            }
            forceFolder();
            return content;
        });
    }

    private static void writeNew(Path file, byte[] content) throws IOException {
        try (FileChannel channel = FileChannel.open(
                file, Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), FILE_FOR_ITS_USER_ONLY)) {
            writeAt(channel, 0, content);
            channel.force(true);
        }
    }

    private static void withdraw(Path file, IOException why) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            why.addSuppressed(e);
        }
    }

    private static void writeAt(FileChannel channel, long start, byte[] bytes) throws IOException {
        ByteBuffer rest = ByteBuffer.wrap(bytes);
        while (rest.hasRemaining()) {
            channel.write(rest, start + rest.position());
        }
    }

    @Override
    public synchronized void append(String name, byte[] bytes) throws IOException {
        Path file = file(name);
        long start = length(name);
        doing(file, "written", () -> {
            FileChannel channel = open(name).channel;
            try {
                writeAt(channel, start, bytes);
            } catch (ClosedByInterruptException e) {
                throw e;
            } catch (IOException e) {
                cutBack(channel, start, e);
                throw e;
            }
            return bytes;
        });
    }

    private static void cutBack(FileChannel channel, long length, IOException why) {
        try {
            channel.truncate(length);
        } catch (IOException e) {
            why.addSuppressed(e);
        }
    }

    @Override
    public synchronized long length(String name) throws IOException {
        Path file = file(name);
        return doing(file, "read", () -> isThere(file) ? Files.size(file) : 0);
    }

    @Override
    public synchronized void force(String name) throws IOException {
        Path file = file(name);
        doing(file, "written to the disk for good", () -> {
            Kept open = open(name);
            open.channel.force(true);
            if (!open.entered) {
                forceFolder();
                open.entered = true;
            }
            return name;
        });
    }

    /** The open channel of a file, which must still be the one that its name leads to. */
    private Kept open(String name) throws IOException {
        Path file = folder.resolve(name);
        Kept before = kept.get(name);
        if (before != null && before.channel.isOpen()) {
            if (!isThere(file) || !Objects.equals(key(file), before.key)) {
                throw new IOException("somebody took it away, or put another in its place, while it was in use");
            }
            return before;
        }
        make();
        isThere(file);
        Set<OpenOption> options =
                Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
        FileChannel channel = FileChannel.open(file, options, FILE_FOR_ITS_USER_ONLY);
        Kept now = new Kept(channel, key(file));
        kept.put(name, now);
        return now;
    }

    private static @Nullable Object key(Path file) throws IOException {
        return Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS)
                .fileKey();
    }

    @Override
    public synchronized void truncate(String name, long length) throws IOException {
        Path file = file(name);
        doing(file, "cut back", () -> {
            if (!isThere(file) && length == 0) {
                return name;
            }
            Kept open = open(name);
            open.channel.truncate(length);
            open.channel.force(true);
            return name;
        });
    }

    @Override
    public synchronized void delete(String name) throws IOException {
        Path file = file(name);
        doing(file, "taken away", () -> {
            letGo(name);
            if (Files.deleteIfExists(file)) {
                forceFolder();
            }
            return name;
        });
    }

    @Override
    public synchronized List<String> names(String prefix) throws IOException {
        return doing(folder, "read", () -> {
            List<String> names = new ArrayList<>();
            if (!isFolder()) {
                return names;
            }
            try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
                for (Path file : files) {
                    String name = file.getFileName().toString();
                    if (name.startsWith(prefix)
                            && isName(name)
                            && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
                        names.add(name);
                    }
                }
            }
            Collections.sort(names);
            return names;
        });
    }

    @Override
    public synchronized void keepReserve() throws IOException {
        Path file = folder.resolve(RESERVE);
        doing(file, "written", () -> {
            if (reserve > 0 && !(isThere(file) && Files.size(file) == reserve)) {
                make();
                Files.deleteIfExists(file);
                try {
                    writeNew(file, filling());
                } catch (IOException e) {
                    withdraw(file, e);
                    throw e;
                }
                forceFolder();
            }
            return file;
        });
    }

    /** Nothing that a file system could keep in less room. */
    private byte[] filling() {
        byte[] bytes = new byte[reserve];
        new SplittableRandom(reserve).nextBytes(bytes);
        return bytes;
    }

    @Override
    public synchronized boolean giveUpReserve() throws IOException {
        Path file = folder.resolve(RESERVE);
        return doing(file, "taken away", () -> {
            boolean given = Files.deleteIfExists(file);
            if (given) {
                forceFolder();
            }
            return given;
        });
    }

    /** Closes what is open. Idempotent; it can be used again. */
    @Override
    public synchronized void close() throws IOException {
        for (String name : List.copyOf(kept.keySet())) {
            letGo(name);
        }
    }

    private void letGo(String name) throws IOException {
        Kept open = kept.remove(name);
        if (open != null) {
            open.channel.close();
        }
    }

    private Path file(String name) {
        if (!isName(name)) {
            throw new IllegalArgumentException("'" + name + "' is no name of a file here");
        }
        return folder.resolve(name);
    }

    private static boolean isName(String name) {
        return NAME.matcher(name).matches() && !name.endsWith(NEW) && !name.equals(RESERVE);
    }

    /** Whether a file is there, which must be one, not a link and not a pipe that a read would wait for. */
    private static boolean isThere(Path file) throws IOException {
        BasicFileAttributes of;
        try {
            of = Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        } catch (NoSuchFileException e) {
            return false;
        }
        if (!of.isRegularFile()) {
            throw new IOException(
                    of.isSymbolicLink() ? "it is a symbolic link, and none is followed" : "it is not a file");
        }
        return true;
    }

    private boolean isFolder() throws IOException {
        BasicFileAttributes of;
        try {
            of = Files.readAttributes(folder, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        } catch (NoSuchFileException e) {
            return false;
        }
        if (!of.isDirectory()) {
            throw new IOException(folder + " is no folder of its own" + (of.isSymbolicLink() ? " but a link" : ""));
        }
        return true;
    }

    private void make() throws IOException {
        if (!isFolder()) {
            Files.createDirectory(folder, PosixFilePermissions.asFileAttribute(FOR_ITS_USER_ONLY));
            forceFolder(folder.toAbsolutePath().getParent());
        } else if (!Files.getPosixFilePermissions(folder).equals(FOR_ITS_USER_ONLY)) {
            Files.setPosixFilePermissions(folder, FOR_ITS_USER_ONLY);
        }
    }

    private void forceFolder() throws IOException {
        forceFolder(folder);
    }

    private static void forceFolder(@Nullable Path which) throws IOException {
        if (which != null) {
            try (FileChannel channel = FileChannel.open(which, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }

    /** Every piece of work here may be done again from its beginning, as it is where an interrupt closed a channel. */
    private <T> T doing(Path file, String what, Doing<T> work) throws IOException {
        boolean interrupted = Thread.interrupted();
        try {
            while (true) {
                try {
                    return work.run();
                } catch (ClosedByInterruptException e) {
                    interrupted |= Thread.interrupted();
                } catch (IOException e) {
                    throw new IOException(file + " cannot be " + what + ": " + reason(e), e);
                }
            }
        } finally {
            if (interrupted) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private static String reason(IOException e) {
        if (e instanceof AccessDeniedException) {
            return "this user may not";
        }
        if (e instanceof NoSuchFileException missing) {
            return "there is no " + missing.getFile();
        }
        String said = e instanceof FileSystemException known && known.getReason() != null
                ? known.getReason()
                : Objects.requireNonNullElse(e.getMessage(), e.getClass().getSimpleName());
        if (said.contains("No space left")) {
            return "the disk is full (" + said + ")";
        }
        if (said.contains("Read-only file system")) {
            return "the disk can only be read (" + said + ")";
        }
        if (said.contains("quota")) {
            return "this user's share of the disk is used up (" + said + ")";
        }
        return said;
    }
}
