package burnerbridge.line.wire;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The lock file of a serial port, {@code /run/lock/LCK..ttyUSB0} with the process number in ten characters
 * (Filesystem Hierarchy Standard 3.0, 5.9, from memory). It is for programs that keep to such files; those
 * that lock the port itself, as the serial library does, are kept out by that, root among them. Where the
 * folder is missing or may not be written, there is no lock file.
 */
final class PortLock {
    private static final Logger LOG = LoggerFactory.getLogger(PortLock.class);
    /** The least that a process number that was given again is younger than the file. */
    private static final long ROUNDING_MILLIS = 2_000;

    private static final int LONGEST = 64;

    private final Path file;
    private boolean taken;

    PortLock(Path folder, Path port) {
        this.file = folder.resolve("LCK.." + name(port));
    }

    private static String name(Path port) {
        String path = port.toString();
        return (path.startsWith("/dev/") ? path.substring("/dev/".length()) : path.substring(1)).replace('/', '_');
    }

    /** @throws IOException where another process that still runs has it */
    void check() throws IOException {
        Optional<Long> owner = owner();
        if (owner.isPresent() && owner.get() != ProcessHandle.current().pid()) {
            throw new IOException("another program has it open (process " + owner.get() + ", as " + file + " says)");
        }
    }

    /** The process that a lock file names, if that is the one that wrote it. */
    private Optional<Long> owner() {
        try {
            // Everybody may write into that folder: what is no small file is not even opened.
            BasicFileAttributes attributes =
                    Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
            if (!attributes.isRegularFile() || attributes.size() > LONGEST) {
                return Optional.empty();
            }
            long pid = Long.parseLong(
                    Files.readString(file, StandardCharsets.ISO_8859_1).strip());
            Instant written = attributes.lastModifiedTime().toInstant().plusMillis(ROUNDING_MILLIS);
            return ProcessHandle.of(pid)
                    .filter(ProcessHandle::isAlive)
                    .filter(process -> process.info()
                            .startInstant()
                            .map(start -> start.isBefore(written))
                            .orElse(true))
                    .map(ProcessHandle::pid);
        } catch (IOException | NumberFormatException e) {
            return Optional.empty();
        }
    }

    /**
     * Puts the lock file there, in place of one whose process has ended.
     *
     * @throws IOException where another process was faster
     */
    void take() throws IOException {
        check();
        try {
            Files.deleteIfExists(file);
            String pid =
                    String.format(Locale.ROOT, "%10d\n", ProcessHandle.current().pid());
            Files.writeString(file, pid, StandardCharsets.US_ASCII, StandardOpenOption.CREATE_NEW);
            taken = true;
        } catch (IOException e) {
            LOG.debug("no lock file {}: {}", file, e.toString());
        }
    }

    /** Takes the lock file away again, if it is this one's. */
    void release() {
        try {
            if (taken) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            LOG.debug("lock file {}: {}", file, e.toString());
        }
        taken = false;
    }
}
