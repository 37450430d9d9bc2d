package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.control.JsonLine;
import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.daemon.plant.FrozenPlant;
import burnerbridge.daemon.plant.PackagedProgram;
import burnerbridge.simulator.controller.Quillmere;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The packaged bridge beside its plant and a broker, of which one thing after the other fails: what is said of it, and where. */
class ExplainIT {
    private static final Duration LONGEST = Duration.ofMinutes(3);
    private static final String SECRET = "drought-harbour-29";
    private static final String TOKEN = "lantern-quarry-0417-brook";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final int brokerPort = FreePorts.tcp();
    private final int webPort = FreePorts.tcp();

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    @SuppressWarnings("NullAway.Init")
    private Path site;

    private final List<Program> started = new ArrayList<>();

    /** What a command printed, and how it ended. */
    private record Said(int code, String text) {}

    @BeforeEach
    void start() throws Exception {
        OpenBroker.require();
        frozen = new FrozenPlant();
        frozen.firingAndLockedOut();
        site = frozen.siteForAll(folder.resolve("site"), brokerPort, FreePorts.udp());
        Path password = Files.writeString(folder.resolve("mqtt.password"), SECRET + "\n");
        Files.setPosixFilePermissions(password, PosixFilePermissions.fromString("rw-------"));
        Path yaml = site.resolve("site.yaml");
        Files.writeString(
                yaml,
                Files.readString(yaml)
                        .replaceFirst("(?m)^description: ", "description: the word is " + SECRET + "; ")
                        .replace("\nmqtt:\n", "\nmqtt:\n  user: plant\n  password-file: " + password + "\n")
                        .replace("\nwrite-permits:", "\nweb: {port: " + webPort + "}\nwrite-permits:"));
    }

    @AfterEach
    void end() {
        started.forEach(Program::close);
        frozen.close();
    }

    private Program startBridge() {
        List<String> command = new ArrayList<>(List.of("env", "BURNER_BRIDGE_WEB_TOKEN=" + TOKEN));
        command.addAll(PackagedProgram.command(
                "run", site.toString(), "--state", folder.resolve("state").toString()));
        Program bridge = Program.start(folder.resolve("bridge.log"), command);
        started.add(bridge);
        return bridge;
    }

    private Said explain(String... options) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of(
                "explain", site.toString(), "--state", folder.resolve("state").toString()));
        words.addAll(List.of(options));
        Path out = folder.resolve("explained");
        Process process = new ProcessBuilder(PackagedProgram.command(words.toArray(String[]::new)))
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        int code = process.waitFor();
        return new Said(code, Files.readString(out));
    }

    /** Of what is more than worth knowing: the place, and what it is about. */
    private List<String> wrong() throws IOException, InterruptedException {
        Map<String, @Nullable Object> said =
                JsonLine.parse(explain("--json").text().strip());
        List<String> wrong = new ArrayList<>();
        for (Object trouble : (List<?>) Objects.requireNonNull(said.get("troubles"))) {
            Map<?, ?> members = (Map<?, ?>) trouble;
            if (!"notice".equals(members.get("weight"))) {
                wrong.add(members.get("place") + ": " + members.get("about"));
            }
        }
        return wrong;
    }

    private void awaitWrong(String... expected) {
        Awaitility.await()
                .atMost(LONGEST)
                .pollInterval(Duration.ofSeconds(1))
                .untilAsserted(() -> assertThat(wrong()).containsExactlyInAnyOrder(expected));
    }

    private HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + webPort + path))
                                .timeout(Duration.ofSeconds(30))
                                .header("Authorization", "Bearer " + TOKEN)
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void whatFailsIsSaidAtItsPlaceAndIsGoneWhenItIsMended() throws Exception {
        assertThat(explain().code()).as("nobody runs yet").isEqualTo(3);
        assertThat(explain().text()).contains("! bridge: none runs with the state folder");

        Program broker = OpenBroker.start(folder, brokerPort);
        started.add(broker);
        Program bridge = startBridge();
        awaitWrong();
        Said fine = explain();
        assertThat(fine.code()).as(fine.text()).isZero();
        assertThat(fine.text())
                .contains("cable     wires, plugs, adapters: nothing is wrong")
                .containsPattern("- controller [a-z0-9-]+: has locked out, as [a-z-]+ says");

        frozen.plant.pullCable(Quillmere.BOILER_1, true);
        awaitWrong("burner: controller boiler-1");
        frozen.plant.pullCable(Quillmere.BOILER_2, true);
        awaitWrong("cable: line boiler-house");
        frozen.plant.pullCable(Quillmere.BOILER_1, false);
        frozen.plant.pullCable(Quillmere.BOILER_2, false);
        awaitWrong();

        assertThat(broker.end()).isZero();
        awaitWrong("broker: mqtt");
        assertThat(explain().code()).isEqualTo(1);
        HttpResponse<String> health = get("/health");
        assertThat(health.statusCode()).as("a restart would mend no broker").isEqualTo(200);
        assertThat(health.body()).contains("\"alive\":true", "\"ready\":false", "\"place\":\"broker\"");
        started.add(OpenBroker.start(folder, brokerPort));
        awaitWrong();
        assertThat(get("/health").body()).contains("\"ready\":true", "\"degraded\":false");

        String metrics = get("/metrics").body();
        assertThat(metrics)
                .contains("burner_bridge_points{quality=\"good\"} ")
                .contains("burner_bridge_controller_up{controller=\"boiler-1\",line=\"boiler-house\"} 1")
                .contains("burner_bridge_mqtt_connected 1")
                .contains("burner_bridge_bacnet_serving 1")
                .containsPattern(
                        "burner_bridge_transactions_total\\{line=\"annex\",outcome=\"answered\",unit=\"3\"} [1-9]");

        assertThat(metrics).contains("burner_bridge_build{");
        assertThat(bridge.said()).doesNotContain("a metric is left out");

        frozen.close();
        awaitWrong("network: line boiler-house", "network: line annex");

        lookIntoTheBundle();
        assertThat(bridge.end()).isZero();
        assertThat(explain().code()).isEqualTo(3);
    }

    private void lookIntoTheBundle() throws Exception {
        Path bundle = folder.resolve("bundle.zip");
        Said packed = explain("--bundle", bundle.toString());
        assertThat(packed.text()).contains("look into it before it is sent");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(bundle)))
                .isEqualTo("rw-------");
        Map<String, String> texts = texts(bundle);
        assertThat(texts.keySet())
                .contains(
                        "explain.txt",
                        "explain.json",
                        "check.txt",
                        "log.txt",
                        "values.csv",
                        "plan.csv",
                        "permits.txt",
                        "box.txt",
                        "site/site.yaml",
                        "site/bindings.csv",
                        "site/points/hot-water.csv");
        assertThat(texts.values()).noneMatch(text -> text.contains(SECRET) || text.contains(TOKEN));
        assertThat(texts.get("site/site.yaml")).contains("the word is [left out]");
        assertThat(texts.get("log.txt")).contains("line annex: is not connected");
        assertThat(texts.get("values.csv")).contains("boiler-1,flame,");
        assertThat(texts.get("box.txt")).contains("accepted-site/site.yaml");
        assertThat(explain("--bundle", bundle.toString()).code())
                .as("it is there already")
                .isEqualTo(2);
        try (Stream<Path> files = Files.walk(folder.resolve("state"))) {
            assertThat(files)
                    .allSatisfy(path -> assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(path)))
                            .isEqualTo(Files.isDirectory(path) ? "rwx------" : "rw-------"));
        }
    }

    private static Map<String, String> texts(Path bundle) throws IOException {
        Map<String, String> texts = new TreeMap<>();
        try (ZipFile zip = new ZipFile(bundle.toFile())) {
            Enumeration<? extends ZipEntry> entries = zip.entries();
            while (entries.hasMoreElements()) {
                ZipEntry entry = entries.nextElement();
                texts.put(
                        entry.getName(), new String(zip.getInputStream(entry).readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        return texts;
    }
}
