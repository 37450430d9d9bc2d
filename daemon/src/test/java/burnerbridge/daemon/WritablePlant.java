package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.site.QuillmereWithPermits;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;

/** The invented plant on free ports, taking writes and recording them, and the example site with permits that leads there. */
final class WritablePlant {
    private static final long SEED = 10_407;

    private WritablePlant() {}

    static Quillmere start() throws IOException {
        Quillmere plant = new Quillmere(
                new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0),
                SEED,
                Instant.parse("2026-11-29T08:00:00Z"));
        plant.acceptWrites(true);
        plant.start();
        return plant;
    }

    /**
     * Writes the site and loads it.
     *
     * @param permits the part {@code write-permits}
     * @param bacnet the part {@code bacnet} in its stead; empty: as it stands
     */
    static SiteFolder site(Path folder, Quillmere plant, String permits, String bacnet) throws IOException {
        QuillmereWithPermits.writeTo(folder, permits);
        Path yaml = folder.resolve("site.yaml");
        String text = Files.readString(yaml)
                .replace("port: 7001", "port: " + plant.boilerHousePort())
                .replace("port: 1502", "port: " + plant.annexPort());
        Files.writeString(
                yaml, bacnet.isEmpty() ? text : text.replaceFirst("(?s)\nbacnet:.*?\n\n", "\n" + bacnet + "\n\n"));
        SiteFolder loaded = SiteFolder.load(folder);
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded;
    }
}
