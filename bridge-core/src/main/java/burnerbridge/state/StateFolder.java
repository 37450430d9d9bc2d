package burnerbridge.state;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A state folder that this process has for itself until it closes it or ends, however it ends: the lock is
 * the operating system's. The lock file stays, with the words of its last owner, and means nothing by
 * itself. Nothing else in this process may open the lock file: closing any descriptor of it gives the lock
 * up (POSIX, fcntl).
 */
public final class StateFolder implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(StateFolder.class);
    private static final FileAttribute<Set<PosixFilePermission>> FOR_ITS_USER_ONLY =
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"));
    private static final FileAttribute<Set<PosixFilePermission>> FILE_FOR_ITS_USER_ONLY =
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));
    private static final String LOCK = "lock";
    private static final String SITE = "site";
    /** More than the words of any owner. */
    private static final int LONGEST_WORDS = 16_384;

    private final Path folder;
    private final FileChannel lockFile;

    private StateFolder(Path folder, FileChannel lockFile) {
        this.folder = folder;
        this.lockFile = lockFile;
    }

    /** Where the control socket of whoever has a state folder is. */
    public static Path socketIn(Path folder) {
        return folder.resolve("control").resolve("socket");
    }

    /**
     * Makes the folder where it is missing, and takes it.
     *
     * @param owner this process
     * @throws OccupiedException while another process has it
     * @throws OtherSiteException where it was another site's
     * @throws StateException where it cannot be made or written
     */
    public static StateFolder take(Path folder, Occupant owner) throws StateException {
        try {
            make(folder);
            FileChannel lockFile = open(folder.resolve(LOCK));
            try {
                return taken(folder, lockFile, owner);
            } catch (IOException | StateException e) {
                lockFile.close();
                throw e;
            }
        } catch (IOException e) {
            String message = "the state folder " + folder + " cannot be used: " + reason(e);
            throw takesNothing(folder, e) && isFree(folder.resolve(LOCK))
                    ? new TakesNothingException(message, e)
                    : new StateException(
                            message + "; say another with --state or in the environment variable STATE_DIRECTORY", e);
        }
    }

    /** A read-only or full file system; not what rights or a wrong path keep from being written. */
    private static boolean takesNothing(Path folder, IOException e) {
        // A write that finds no room tells it without saying in which file.
        boolean untold =
                e.getClass().equals(FileSystemException.class) || e.getClass().equals(IOException.class);
        return untold && (Files.isDirectory(folder) || !Files.exists(folder, LinkOption.NOFOLLOW_LINKS));
    }

    /** Whether nobody has the lock, as far as can be seen without writing; a shared lock tells. */
    private static boolean isFree(Path lock) {
        if (!Files.exists(lock, LinkOption.NOFOLLOW_LINKS)) {
            return true;
        }
        try (FileChannel file = FileChannel.open(lock, Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS));
                FileLock shared = file.tryLock(0, Long.MAX_VALUE, true)) {
            return shared != null;
        } catch (IOException | OverlappingFileLockException e) {
            LOG.debug("state folder: {}: {}", lock, e.toString());
            return false;
        }
    }

    /**
     * Takes a folder for temporary files in place of a state folder that takes nothing. What is kept there is lost when the
     * box starts again.
     *
     * @param place as {@link StatePlace#substitute} has it
     * @throws StateException as {@link #take} does, and where the folder is another user's or open to others
     */
    public static StateFolder takeSubstitute(Path place, Occupant owner) throws StateException {
        try {
            make(place);
            if (!isOwn(place)) {
                throw new StateException(place + " cannot stand in for it, since it is not this user's own");
            }
        } catch (IOException e) {
            throw new StateException("nothing can stand in for it either: " + reason(e), e);
        }
        return take(place, owner);
    }

    /** Whether a folder is this user's and nobody else's, and no link: in a place where everybody may make one, it may not be. */
    public static boolean isOwn(Path place) throws IOException {
        return Files.isDirectory(place, LinkOption.NOFOLLOW_LINKS)
                && FOR_ITS_USER_ONLY
                        .value()
                        .containsAll(Files.getPosixFilePermissions(place, LinkOption.NOFOLLOW_LINKS))
                && Files.getOwner(place, LinkOption.NOFOLLOW_LINKS)
                        .getName()
                        .equals(Files.getOwner(Path.of("/proc/self")).getName());
    }

    private static void make(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            Path parent = folder.toAbsolutePath().getParent();
            if (parent != null) {
                Files.createDirectories(parent);
            }
            try {
                Files.createDirectory(folder, FOR_ITS_USER_ONLY);
            } catch (FileAlreadyExistsException e) {
                // Made by another process just now; or it is no folder, and that is told when it is opened.
                LOG.debug("{} was made in the meantime", folder);
            }
        }
        if (Files.getPosixFilePermissions(folder).contains(PosixFilePermission.OTHERS_WRITE)) {
            LOG.warn("state folder {}: every user may write into it; chmod 700 keeps them out", folder);
        }
    }

    private static FileChannel open(Path lock) throws IOException {
        return FileChannel.open(
                lock,
                Set.of(
                        StandardOpenOption.CREATE,
                        StandardOpenOption.READ,
                        StandardOpenOption.WRITE,
                        LinkOption.NOFOLLOW_LINKS),
                FILE_FOR_ITS_USER_ONLY);
    }

    private static StateFolder taken(Path folder, FileChannel lockFile, Occupant owner)
            throws IOException, StateException {
        if (!lock(lockFile)) {
            throw new OccupiedException(Occupant.words(text(lockFile)) + " has the state folder " + folder
                    + " and with it the lines of the site; one program at a time may talk to them");
        }
        checkSite(folder.resolve(SITE), owner);
        sign(folder, lockFile, owner);
        return new StateFolder(folder, lockFile);
    }

    /** The words are for messages only: a full disk must not keep the bridge from running. */
    private static void sign(Path folder, FileChannel lockFile, Occupant owner) {
        try {
            lockFile.truncate(0);
            lockFile.write(ByteBuffer.wrap(owner.text().getBytes(StandardCharsets.UTF_8)), 0);
        } catch (IOException e) {
            LOG.warn("state folder {}: its lock file cannot be written: {}", folder, reason(e));
        }
    }

    private static boolean lock(FileChannel lockFile) throws IOException {
        try {
            @Nullable FileLock lock = lockFile.tryLock();
            return lock != null;
        } catch (OverlappingFileLockException e) {
            // Held by this very process.
            return false;
        }
    }

    private static String text(FileChannel lockFile) throws IOException {
        ByteBuffer words = ByteBuffer.allocate(LONGEST_WORDS);
        lockFile.read(words, 0);
        return StandardCharsets.UTF_8.decode(words.flip()).toString();
    }

    /** Two sites must not mix what is kept of them; the same site may have moved. */
    private static void checkSite(Path record, Occupant owner) throws IOException, OtherSiteException {
        String now = owner.site() + "\n" + owner.folder().toString().replaceAll("\\p{Cntrl}", "?") + "\n";
        String before = Files.exists(record) ? Files.readString(record) : "";
        if (before.equals(now)) {
            return;
        }
        String[] site = before.split("\n", 3);
        if (!before.isBlank() && !site[0].equals(owner.site())) {
            throw new OtherSiteException("the state folder " + record.getParent() + " is that of site " + site[0]
                    + (site.length > 1 ? " in " + site[1] : "") + ", not of " + owner.site() + " in " + owner.folder()
                    + "; say another with --state, or delete it if nothing of it is wanted any more");
        }
        Path whole = record.resolveSibling(SITE + ".new");
        Files.deleteIfExists(whole);
        try (FileChannel file = FileChannel.open(
                whole, Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), FILE_FOR_ITS_USER_ONLY)) {
            ByteBuffer words = ByteBuffer.wrap(now.getBytes(StandardCharsets.UTF_8));
            while (words.hasRemaining()) {
                file.write(words);
            }
        }
        Files.move(whole, record, StandardCopyOption.ATOMIC_MOVE);
        if (!before.isBlank()) {
            LOG.info("state folder {}: site {} is in {} now", record.getParent(), owner.site(), owner.folder());
        }
    }

    private static String reason(IOException e) {
        if (e instanceof AccessDeniedException denied) {
            return denied.getFile() + " may not be written by this user";
        }
        if (e instanceof NoSuchFileException missing) {
            return "nothing can be made in " + missing.getFile();
        }
        if (e instanceof FileSystemException known && known.getReason() != null) {
            return known.getFile() + ": " + known.getReason();
        }
        return e.getClass().getSimpleName() + (e.getMessage() == null ? "" : ": " + e.getMessage());
    }

    public Path folder() {
        return folder;
    }

    /** Where this process may offer its control socket. */
    public Path socket() {
        return socketIn(folder);
    }

    /** Gives it up. Idempotent. */
    @Override
    public void close() {
        try {
            lockFile.close();
        } catch (IOException e) {
            LOG.debug("state folder {}: {}", folder, e.toString());
        }
    }
}
