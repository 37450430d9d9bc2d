package burnerbridge.line.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class PortLockTest {
    private static final Path PORT = Path.of("/dev/ttyUSB7");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final long self = ProcessHandle.current().pid();

    private Path file() {
        return folder.resolve("LCK..ttyUSB7");
    }

    private PortLock lock() {
        return new PortLock(folder, PORT);
    }

    private static String text(long pid) {
        return String.format(Locale.ROOT, "%10d\n", pid);
    }

    /** The process that runs this one: it is alive and is older than any file of this test. */
    private static long anotherProcess() {
        return ProcessHandle.current().parent().orElseThrow().pid();
    }

    @Test
    void theFileHasTheProcessNumberInTenCharacters() throws Exception {
        PortLock lock = lock();
        lock.take();
        assertThat(Files.readString(file())).hasSize(11).endsWith(self + "\n");
        lock.release();
        lock.release();
        assertThat(file()).doesNotExist();
    }

    @Test
    void aPortThatAnotherProcessHasIsLeftToIt() throws Exception {
        String text = text(anotherProcess());
        Files.writeString(file(), text);
        PortLock lock = lock();
        assertThatThrownBy(lock::check)
                .isInstanceOf(IOException.class)
                .hasMessageContaining("another program has it open (process " + anotherProcess());
        assertThatThrownBy(lock::take).isInstanceOf(IOException.class);
        lock.release();
        assertThat(file()).hasContent(text);
    }

    @Test
    void aFileOfAProcessThatHasEndedMeansNothing() throws Exception {
        Process ended = new ProcessBuilder("true").start();
        ended.waitFor();
        Files.writeString(file(), text(ended.pid()));
        lock().take();
        assertThat(Files.readString(file())).contains(Long.toString(self));
    }

    @Test
    void aFileThatIsOlderThanTheProcessOfItsNumberMeansNothing() throws Exception {
        Files.writeString(file(), text(anotherProcess()));
        Files.setLastModifiedTime(file(), FileTime.from(Instant.parse("2001-01-01T00:00:00Z")));
        lock().check();
        lock().take();
        assertThat(Files.readString(file())).contains(Long.toString(self));
    }

    @Test
    @Timeout(20)
    void whatIsNoSmallFileIsNotReadAndMeansNothing() throws Exception {
        new ProcessBuilder("mkfifo", file().toString()).start().waitFor();
        lock().check();
        Files.delete(file());
        Files.writeString(file(), text(anotherProcess()) + " ".repeat(100));
        lock().check();
        Files.delete(file());
        Path elsewhere = Files.writeString(folder.resolve("elsewhere"), text(anotherProcess()));
        Files.createSymbolicLink(file(), elsewhere);
        lock().take();
        assertThat(elsewhere).hasContent(text(anotherProcess()));
    }

    @Test
    void withoutAFolderForLocksThereIsNone() throws Exception {
        PortLock lock = new PortLock(folder.resolve("none"), PORT);
        lock.check();
        lock.take();
        lock.release();
    }

    /** Lines in the form of proc_locks(5). */
    @Test
    void theHolderOfALockIsFoundByDeviceAndInode() {
        List<String> locks = List.of(
                "1: POSIX  ADVISORY  WRITE 3568 fd:00:2531452 0 EOF",
                "2: FLOCK  ADVISORY  WRITE 707 08:02:1234 0 EOF",
                "2: -> FLOCK  ADVISORY  WRITE 708 08:02:1234 0 EOF",
                "3: FLOCK  ADVISORY  WRITE 0 08:02:99 0 EOF");
        assertThat(FileLocks.holder(locks, 0x0802, 1234)).isEqualTo(Optional.of(707L));
        assertThat(FileLocks.holder(locks, 0xFD00, 2531452)).isEqualTo(Optional.of(3568L));
        assertThat(FileLocks.holder(locks, 0x0802, 4321)).isEmpty();
        // A process of another container has no number here.
        assertThat(FileLocks.holder(locks, 0x0802, 99)).isEmpty();
        assertThat(FileLocks.holder(List.of("", "nonsense"), 0x0802, 1234)).isEmpty();
    }
}
