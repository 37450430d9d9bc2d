package burnerbridge.config.problem;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class UnreadableTest {
    private static final String USER = System.getProperty("user.name");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @Test
    void whoHasNoRightToAFileIsToldWhichAndAsWhom() {
        assertThat(Unreadable.why(new AccessDeniedException("/srv/site/site.yaml")))
                .isEqualTo("cannot be read: user " + USER
                        + " has no right to /srv/site/site.yaml, or to a folder above it");
    }

    @Test
    void anyOtherCauseIsToldAsTheSystemDoes() {
        assertThat(Unreadable.why(new FileSystemException("/srv/site/site.yaml", null, "Not a directory")))
                .isEqualTo("cannot be read: /srv/site/site.yaml: Not a directory");
    }

    @Test
    void aFolderThatMayNotBeEnteredIsNamedAndNotTheFileBehindIt() throws IOException {
        Path points = Files.createDirectory(folder.resolve("points"));
        Path file = Files.createFile(points.resolve("steam.csv"));
        assertThat(Unreadable.closed(file, path -> !path.equals(points)))
                .contains("cannot be looked at: user " + USER + " may not enter the folder " + points);
        assertThat(Unreadable.closed(file, path -> true)).isEmpty();
    }

    @Test
    void aFolderThatIsNotThereIsNotClosed() {
        assertThat(Unreadable.closed(folder.resolve("points/steam.csv"))).isEmpty();
    }
}
