package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** The bridge as it is packaged, a process of its own, on the example site beside its plant; its broker is not there yet. */
class PackagedBridgeIT {
    private static final Duration LONGEST = Duration.ofMinutes(3);
    private static final long SECONDS_TO_END = 60;
    private static final ObjectMapper JSON = new ObjectMapper();

    /** Of the points at that moment: a sensor that is not fitted, and what means nothing without its flame or fuel. */
    private static final Set<String> RIGHTLY_NOT_GOOD = Set.of(
            "boiler-1.nitrogen-oxides",
            "boiler-2.outdoor-temperature",
            "boiler-2.efficiency",
            "steam-1.oil-flow",
            "steam-1.oil-pressure");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    @SuppressWarnings("NullAway.Init")
    private Path log;

    private final List<Process> started = new ArrayList<>();

    @BeforeEach
    void start() throws Exception {
        assertThat(PackagedProgram.LIB)
                .as("the packaged bridge; integration tests run after it is made")
                .isDirectory();
        log = folder.resolve("standard-error");
        frozen = new FrozenPlant();
        frozen.firingAndLockedOut();
    }

    @AfterEach
    void close() {
        started.forEach(Process::destroyForcibly);
        frozen.close();
    }

    @Test
    void everyPointComesThroughItAndItEndsWhenAsked() throws Exception {
        Path site = frozen.siteForAll(folder.resolve("site"), FreePorts.tcp(), FreePorts.udp());
        Process bridge = command("run", site, folder.resolve("bridge.out"));
        Awaitility.await().atMost(LONGEST).until(() -> said().contains("control socket ") || !bridge.isAlive());

        Awaitility.await().atMost(LONGEST).pollInterval(Duration.ofSeconds(1)).untilAsserted(() -> {
            assertThat(bridge.isAlive()).as(said()).isTrue();
            assertThat(notGood(site)).as(said()).isEqualTo(new TreeSet<>(RIGHTLY_NOT_GOOD));
        });

        bridge.destroy();
        assertThat(bridge.waitFor(SECONDS_TO_END, TimeUnit.SECONDS)).as(said()).isTrue();
        assertThat(bridge.exitValue()).as(said()).isZero();
    }

    /** Asks the running bridge, by its control socket; not before it is there, else it would take the lines. */
    private Set<String> notGood(Path site) throws Exception {
        Path said = folder.resolve("values.json");
        Process values = command("values", site, said, "--once", "--json");
        assertThat(values.waitFor(SECONDS_TO_END, TimeUnit.SECONDS)).isTrue();
        JsonNode told = JSON.readTree(said.toFile());
        assertThat(told.path("source").asString()).doesNotContain("no bridge");
        assertThat(told.path("points")).hasSizeGreaterThan(330);
        Set<String> names = new TreeSet<>();
        for (JsonNode row : told.path("points")) {
            if (!row.path("quality").asString().equals("good")) {
                names.add(row.path("controller").asString() + "."
                        + row.path("point").asString());
            }
        }
        return names;
    }

    private Process command(String verb, Path site, Path output, String... arguments) throws IOException {
        List<String> command = PackagedProgram.command(
                verb, site.toString(), "--state", folder.resolve("state").toString());
        command.addAll(List.of(arguments));
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.appendTo(log.toFile()))
                .redirectOutput(output.toFile())
                .start();
        process.getOutputStream().close();
        started.add(process);
        return process;
    }

    /** What all of them wrote to standard error. */
    private String said() throws IOException {
        return Files.exists(log) ? Files.readString(log) : "nothing";
    }
}
