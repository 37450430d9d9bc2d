package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LastAcceptedTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Path siteFolder;

    @SuppressWarnings("NullAway.Init")
    private LastAccepted kept;

    @BeforeEach
    void make() throws IOException {
        siteFolder = Files.createDirectory(folder.resolve("site"));
        DamagedSites.writeTo(siteFolder);
        kept = new LastAccepted(Files.createDirectory(folder.resolve("state")));
    }

    private SiteFolder loaded() {
        return SiteFolder.load(siteFolder);
    }

    @Test
    void atFirstThereIsNone() {
        assertThat(kept.folder()).isEmpty();
        assertThat(kept.at()).isEmpty();
    }

    @Test
    void theCopyIsTheSameSite() throws IOException {
        SiteFolder loaded = loaded();
        assertThat(kept.keep(loaded)).isTrue();

        SiteFolder copy = SiteFolder.load(kept.folder().orElseThrow());
        assertThat(copy.problems()).isEqualTo(loaded.problems());
        assertThat(copy.site()).isPresent();
        assertThat(copy.site().orElseThrow().points())
                .hasSameSizeAs(loaded.site().orElseThrow().points());
        assertThat(kept.isKept(loaded)).isTrue();
    }

    @Test
    void whatIsKeptAlreadyIsNotWrittenAgain() throws IOException {
        kept.keep(loaded());

        assertThat(kept.keep(loaded())).isFalse();
    }

    @Test
    void aChangedSiteTakesThePlaceOfTheFormerOne() throws IOException {
        kept.keep(loaded());
        Path yaml = siteFolder.resolve("site.yaml");
        Files.writeString(yaml, Files.readString(yaml) + "\n# changed\n");

        assertThat(kept.isKept(loaded())).isFalse();
        assertThat(kept.keep(loaded())).isTrue();
        assertThat(Files.readString(kept.folder().orElseThrow().resolve("site.yaml")))
                .endsWith("# changed\n");
        try (Stream<Path> left = Files.list(folder.resolve("state"))) {
            assertThat(left).hasSize(1);
        }
    }

    @Test
    void aPowerCutBetweenTheTwoLeavesTheFormerOne() throws IOException {
        kept.keep(loaded());
        Path state = folder.resolve("state");
        Files.move(state.resolve("accepted-site"), state.resolve("accepted-site.former"));
        Files.createDirectory(state.resolve("accepted-site.new"));

        assertThat(SiteFolder.load(kept.folder().orElseThrow()).site()).isPresent();
        assertThat(kept.keep(loaded())).as("what is there is the same").isFalse();
        Path yaml = siteFolder.resolve("site.yaml");
        Files.writeString(yaml, Files.readString(yaml) + "\n# changed\n");
        assertThat(kept.keep(loaded())).isTrue();
        assertThat(kept.isKept(loaded())).isTrue();
    }

    @Test
    void nobodyElseMayReadIt() throws IOException {
        kept.keep(loaded());

        try (Stream<Path> all = Files.walk(kept.folder().orElseThrow())) {
            assertThat(all)
                    .allSatisfy(path -> assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(path)))
                            .isEqualTo(Files.isDirectory(path) ? "rwx------" : "rw-------"));
        }
    }

    @Test
    void whatTheSiteDoesNotNameIsNotCopied() throws IOException {
        Files.writeString(siteFolder.resolve("notes.txt"), "the key is under the mat");
        kept.keep(loaded());

        assertThat(kept.folder().orElseThrow().resolve("notes.txt")).doesNotExist();
    }
}
