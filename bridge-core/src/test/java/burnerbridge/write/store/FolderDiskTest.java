package burnerbridge.write.store;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FolderDiskTest {
    private static final int RESERVE = 4096;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path state;

    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FolderDisk disk;

    @BeforeEach
    void begin() {
        folder = FolderDisk.in(state);
        disk = new FolderDisk(folder, RESERVE);
    }

    @AfterEach
    void end() throws IOException {
        disk.close();
    }

    private static byte[] bytes(String text) {
        return text.getBytes(US_ASCII);
    }

    private static String permissions(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    @Test
    void readingMakesNothing() throws IOException {
        assertThat(disk.read("a")).isEmpty();
        assertThat(disk.names("")).isEmpty();
        assertThat(disk.holds("a")).isFalse();
        assertThat(disk.giveUpReserve()).isFalse();
        disk.delete("a");
        assertThat(folder).doesNotExist();
    }

    @Test
    void theFolderAndItsFilesAreForTheirUserOnly() throws IOException {
        disk.replace("whole", bytes("1"));
        disk.append("grows", bytes("2"));
        disk.keepReserve();
        assertThat(permissions(folder)).isEqualTo("rwx------");
        for (String name : new String[] {"whole", "grows", "reserve"}) {
            assertThat(permissions(folder.resolve(name))).as(name).isEqualTo("rw-------");
        }
    }

    @Test
    void aFolderThatOthersCouldReadIsClosedToThemAtTheFirstWrite() throws IOException {
        Files.createDirectory(folder);
        Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxrwxrwx"));
        disk.replace("a", bytes("1"));
        assertThat(permissions(folder)).isEqualTo("rwx------");
    }

    @Test
    void whatIsAddedStandsAtTheEndAndIsThereForTheNextToo() throws IOException {
        disk.append("a", bytes("one "));
        disk.append("a", bytes("two "));
        disk.force("a");
        disk.close();
        disk.append("a", bytes("three"));
        disk.force("a");
        try (FolderDisk next = new FolderDisk(folder, RESERVE)) {
            assertThat(next.read("a")).isEqualTo(bytes("one two three"));
        }
    }

    @Test
    void aFileIsReplacedAsAWholeAndNothingIsLeftOver() throws IOException {
        disk.append("a", bytes("old and long"));
        disk.replace("a", bytes("new"));
        assertThat(disk.read("a")).isEqualTo(bytes("new"));
        disk.append("a", bytes("er"));
        assertThat(disk.read("a")).isEqualTo(bytes("newer"));
        assertThat(folder.toFile().list()).containsExactly("a");
    }

    @Test
    void whatAKilledProcessLeftBesideAFileIsReplaced() throws IOException {
        disk.replace("a", bytes("old"));
        Files.writeString(folder.resolve("a.new"), "half");
        disk.replace("a", bytes("new"));
        assertThat(disk.read("a")).isEqualTo(bytes("new"));
        assertThat(disk.names("a")).containsExactly("a");
    }

    @Test
    void aFileIsCutBackAndGoesOnFromThere() throws IOException {
        disk.append("a", bytes("12345"));
        disk.truncate("a", 2);
        disk.append("a", bytes("x"));
        assertThat(disk.read("a")).isEqualTo(bytes("12x"));
        disk.truncate("missing", 0);
        assertThat(disk.holds("missing")).isFalse();
    }

    @Test
    void namesAreThoseOfFilesHereInTheirOrder() throws IOException {
        disk.append("audit-2", bytes("1"));
        disk.append("audit-1", bytes("1"));
        disk.append("other", bytes("1"));
        disk.keepReserve();
        Files.createDirectory(folder.resolve("audit-3"));
        assertThat(disk.names("audit-")).containsExactly("audit-1", "audit-2");
        assertThat(disk.names("")).containsExactly("audit-1", "audit-2", "other");
        disk.delete("audit-1");
        assertThat(disk.names("audit-")).containsExactly("audit-2");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "../a", "a/b", "/etc/passwd", ".hidden", "A", "a.new", "reserve", "a b"})
    void whatIsNoNameOfAFileHereIsRefused(String name) {
        assertThatThrownBy(() -> disk.read(name)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> disk.append(name, bytes("1"))).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> disk.replace(name, bytes("1"))).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> disk.delete(name)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void noLinkIsFollowed() throws IOException {
        Path elsewhere = Files.writeString(state.resolve("elsewhere"), "mine");
        disk.append("other", bytes("1"));
        Files.createSymbolicLink(folder.resolve("a"), elsewhere);
        Files.createSymbolicLink(folder.resolve("b.new"), elsewhere);
        Files.createSymbolicLink(folder.resolve("reserve"), elsewhere);
        for (Disk.Work work : new Disk.Work[] {
            () -> disk.read("a"),
            () -> disk.append("a", bytes("1")),
            () -> disk.force("a"),
            () -> disk.truncate("a", 0),
            () -> disk.replace("a", bytes("1")),
            () -> disk.keepReserve()
        }) {
            assertThatThrownBy(work::run)
                    .isInstanceOf(IOException.class)
                    .hasMessageContaining("symbolic link")
                    .hasMessageContaining(folder.toString());
        }
        assertThat(disk.names("a")).isEmpty();
        disk.replace("b", bytes("new"));
        assertThat(disk.read("b")).isEqualTo(bytes("new"));
        assertThat(elsewhere).hasContent("mine");
    }

    @Test
    void aFolderThatIsALinkIsRefused() throws IOException {
        Path elsewhere = Files.createDirectory(state.resolve("elsewhere"));
        Files.createSymbolicLink(folder, elsewhere);
        assertThatThrownBy(() -> disk.append("a", bytes("1"))).hasMessageContaining("no folder of its own but a link");
        assertThatThrownBy(() -> disk.names("")).hasMessageContaining("no folder of its own but a link");
        assertThat(elsewhere.toFile().list()).isEmpty();
    }

    @Test
    void aFileThatSomebodyTookAwayWhileItWasInUseIsAnError() throws IOException {
        disk.append("a", bytes("1"));
        disk.force("a");
        Files.delete(folder.resolve("a"));
        assertThatThrownBy(() -> disk.append("a", bytes("2"))).hasMessageContaining("took it away");
        assertThatThrownBy(() -> disk.force("a")).hasMessageContaining("took it away");
        Files.writeString(folder.resolve("a"), "another");
        assertThatThrownBy(() -> disk.force("a")).hasMessageContaining("put another in its place");
        disk.close();
        disk.append("a", bytes("!"));
        assertThat(disk.read("a")).isEqualTo(bytes("another!"));
    }

    @Test
    void theReserveIsReallyWrittenAndMadeAgain() throws IOException {
        disk.keepReserve();
        Path reserve = folder.resolve("reserve");
        assertThat(Files.size(reserve)).isEqualTo(RESERVE);
        long blocks = RESERVE / 512;
        assertThat(Long.parseLong(said("stat", "-c", "%b", reserve.toString()))).isGreaterThanOrEqualTo(blocks);
        assertThat(disk.giveUpReserve()).isTrue();
        assertThat(reserve).doesNotExist();
        assertThat(disk.giveUpReserve()).isFalse();
        Files.write(reserve, new byte[3]);
        disk.keepReserve();
        assertThat(Files.size(reserve)).isEqualTo(RESERVE);
    }

    private static String said(String... command) throws IOException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        return new String(process.getInputStream().readAllBytes(), US_ASCII).strip();
    }

    @Test
    void anInterruptIsSeenAfterwardsAndEndsNothingHalfWay() throws IOException {
        Thread.currentThread().interrupt();
        disk.append("a", bytes("1"));
        disk.force("a");
        disk.replace("b", bytes("2"));
        assertThat(disk.read("a")).isEqualTo(bytes("1"));
        assertThat(Thread.interrupted()).isTrue();
    }

    @Test
    void interruptsAtAnyMomentLoseNothingAndWriteNothingTwice() throws Exception {
        AtomicBoolean done = new AtomicBoolean();
        Thread writer = Thread.currentThread();
        Thread pest = new Thread(() -> {
            while (!done.get()) {
                writer.interrupt();
                Thread.onSpinWait();
            }
        });
        pest.start();
        StringBuilder all = new StringBuilder();
        try {
            for (int i = 0; i < 80; i++) {
                String line = "line " + i + "\n";
                all.append(line);
                disk.append("a", bytes(line));
                if (i % 10 == 0) {
                    disk.force("a");
                    disk.replace("b", bytes(line));
                }
            }
        } finally {
            done.set(true);
            join(pest);
        }
        assertThat(new String(disk.read("a"), US_ASCII)).isEqualTo(all.toString());
        assertThat(disk.read("b")).isEqualTo(bytes("line 70\n"));
    }

    /** Its last interrupt may come while we wait for it. */
    private static void join(Thread pest) {
        while (true) {
            try {
                pest.join();
                Thread.interrupted();
                return;
            } catch (InterruptedException e) {
                // And wait on.
            }
        }
    }

    @Test
    void whatCannotBeMadeIsToldWithItsPath() {
        FolderDisk nowhere = new FolderDisk(state.resolve("missing").resolve("writes"), RESERVE);
        assertThatThrownBy(() -> nowhere.append("a", bytes("1")))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("cannot be written")
                .hasMessageContaining(state.resolve("missing").toString());
    }
}
