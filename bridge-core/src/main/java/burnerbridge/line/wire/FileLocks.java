package burnerbridge.line.wire;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Who holds a lock on a file, as Linux tells in {@code /proc/locks} (proc_locks(5)). */
final class FileLocks {
    private static final Path LOCKS = Path.of("/proc/locks");

    private FileLocks() {}

    /** The process that holds one; empty where that is not known. */
    static Optional<Long> holder(Path file) {
        try {
            long device = ((Number) Files.getAttribute(file, "unix:dev")).longValue();
            long inode = ((Number) Files.getAttribute(file, "unix:ino")).longValue();
            return holder(Files.readAllLines(LOCKS), device, inode);
        } catch (IOException | UnsupportedOperationException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /** A line is {@code 1: FLOCK ADVISORY WRITE 707 08:01:1234 0 EOF}: process, device and inode. */
    static Optional<Long> holder(List<String> locks, long device, long inode) {
        String place = String.format(Locale.ROOT, "%02x:%02x:%d", major(device), minor(device), inode);
        return locks.stream()
                .map(line -> line.strip().split("\\s+"))
                .filter(words -> words.length > 5 && words[5].equals(place) && words[4].matches("[1-9]\\d{0,9}"))
                .map(words -> Long.valueOf(words[4]))
                .findFirst();
    }

    /** Device numbers as Linux packs them (gnu_dev_major of the C library). */
    private static long major(long device) {
        return device >> 8 & 0xFFF | device >> 32 & ~0xFFFL;
    }

    private static long minor(long device) {
        return device & 0xFF | device >> 12 & ~0xFFL & 0xFFFFFFFFL;
    }
}
