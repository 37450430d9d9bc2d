package burnerbridge.state;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StateFolderTest {
    private static final Instant SINCE = Instant.parse("2026-11-25T08:00:00.250Z");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private static Occupant owner(String site, String siteFolder) {
        return new Occupant("run", 4711, SINCE, site, Path.of(siteFolder));
    }

    private static final Occupant QUILLMERE = owner("quillmere", "/srv/quillmere");

    private Path state() {
        return folder.resolve("deep").resolve("state");
    }

    private static String permissions(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    @Test
    void itIsMadeForItsUserOnly() throws Exception {
        try (StateFolder taken = StateFolder.take(state(), QUILLMERE)) {
            assertThat(permissions(taken.folder())).isEqualTo("rwx------");
            assertThat(permissions(taken.folder().resolve("lock"))).isEqualTo("rw-------");
            assertThat(taken.socket()).isEqualTo(StateFolder.socketIn(state()));
        }
    }

    @Test
    void theSecondIsToldWhoTheFirstIs() throws Exception {
        try (StateFolder taken = StateFolder.take(state(), QUILLMERE)) {
            assertThatThrownBy(() -> StateFolder.take(taken.folder(), QUILLMERE))
                    .isInstanceOf(OccupiedException.class)
                    .hasMessageContaining("'burner-bridge run'")
                    .hasMessageContaining("process 4711")
                    .hasMessageContaining("since 2026-11-25T08:00:00Z")
                    .hasMessageContaining("/srv/quillmere");
        }
    }

    @Test
    void oneThatWasGivenUpCanBeTakenAgain() throws Exception {
        StateFolder first = StateFolder.take(state(), QUILLMERE);
        first.close();
        first.close();
        StateFolder.take(state(), QUILLMERE).close();
    }

    @Test
    void wordsOfAnOldLockMeanNothing() throws Exception {
        Files.createDirectories(state());
        Files.writeString(state().resolve("lock"), QUILLMERE.text());
        StateFolder.take(state(), QUILLMERE).close();
    }

    @Test
    void theFolderOfAnotherSiteIsRefused() throws Exception {
        StateFolder.take(state(), QUILLMERE).close();
        assertThatThrownBy(() -> StateFolder.take(state(), owner("annex-works", "/srv/annex")))
                .isInstanceOf(OtherSiteException.class)
                .hasMessageContaining("is that of site quillmere in /srv/quillmere, not of annex-works in /srv/annex");
        // The refused one has left the lock behind it free.
        StateFolder.take(state(), QUILLMERE).close();
    }

    @Test
    void aSiteMayMove() throws Exception {
        StateFolder.take(state(), QUILLMERE).close();
        StateFolder.take(state(), owner("quillmere", "/opt/quillmere")).close();
        assertThat(state().resolve("site")).hasContent("quillmere\n/opt/quillmere\n");
    }

    @Test
    void aRecordThatAPowerCutLeftEmptyIsWrittenAgain() throws Exception {
        StateFolder.take(state(), QUILLMERE).close();
        Files.writeString(state().resolve("site"), "");
        StateFolder.take(state(), QUILLMERE).close();
        assertThat(state().resolve("site")).hasContent("quillmere\n/srv/quillmere\n");
    }

    @Test
    void aFolderThatCannotBeUsedIsToldWithItsPathAndWhatToDo() throws Exception {
        Path file = Files.createFile(folder.resolve("file"));
        assertThatThrownBy(() -> StateFolder.take(file, QUILLMERE))
                .isExactlyInstanceOf(StateException.class)
                .hasMessageContaining(file.toString())
                .hasMessageContaining("--state");
        assertThatThrownBy(() -> StateFolder.take(file.resolve("below"), QUILLMERE))
                .isExactlyInstanceOf(StateException.class)
                .hasMessageContaining(file.toString());
    }

    @Test
    void whatStandsInForAFolderThatTakesNothingIsTheSameForEveryCommandOfOneUser() {
        Path temporary = Path.of("/tmp");
        Path one = StatePlace.substitute(Path.of("/srv/state"), temporary, "burner-bridge");
        assertThat(one).isEqualTo(StatePlace.substitute(Path.of("/srv/../srv/state"), temporary, "burner-bridge"));
        assertThat(one).isNotEqualTo(StatePlace.substitute(Path.of("/srv/state2"), temporary, "burner-bridge"));
        assertThat(one).isNotEqualTo(StatePlace.substitute(Path.of("/srv/state"), temporary, "root"));
        assertThat(StatePlace.substitute(Path.of("/srv/state"), temporary, "a/../b")
                        .getParent())
                .isEqualTo(temporary);
    }

    @Test
    void oneThatOthersMayOpenDoesNotStandIn() throws Exception {
        Path open = Files.createDirectory(folder.resolve("open"));
        Files.setPosixFilePermissions(open, PosixFilePermissions.fromString("rwxr-xr-x"));

        assertThatThrownBy(() -> StateFolder.takeSubstitute(open, QUILLMERE))
                .isInstanceOf(StateException.class)
                .hasMessageContaining("is not this user's own");
    }

    @Test
    void norDoesALinkToOne() throws Exception {
        Path real = Files.createDirectory(folder.resolve("real"));
        Files.setPosixFilePermissions(real, PosixFilePermissions.fromString("rwx------"));
        Path link = Files.createSymbolicLink(folder.resolve("link"), real);

        assertThatThrownBy(() -> StateFolder.takeSubstitute(link, QUILLMERE)).isInstanceOf(StateException.class);
        assertThat(StateFolder.isOwn(real)).isTrue();
        assertThat(StateFolder.isOwn(link)).isFalse();
    }

    @Test
    void whatStandsInIsTakenByOneAtATimeToo() throws Exception {
        Path place = folder.resolve("instead");
        try (StateFolder taken = StateFolder.takeSubstitute(place, QUILLMERE)) {
            assertThat(permissions(taken.folder())).isEqualTo("rwx------");
            assertThatThrownBy(() -> StateFolder.takeSubstitute(place, QUILLMERE))
                    .isInstanceOf(OccupiedException.class);
        }
    }

    @Test
    void everyFileInItIsItsUsersOnly() throws Exception {
        try (StateFolder taken = StateFolder.take(state(), QUILLMERE)) {
            assertThat(permissions(taken.folder().resolve("site"))).isEqualTo("rw-------");
        }
    }
}
