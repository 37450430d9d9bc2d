package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage.Block;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * The steps of {@code docs/mqtt.md} to a broker with TLS, certificates, passwords and the generated rights,
 * followed to the letter with the example site; what the guide's reader then sees on the broker is held
 * against the documents that the guide had made.
 */
class BrokerGuideIT {
    private static final Duration LONG = Duration.ofSeconds(60);
    private static final Path EXAMPLE = Path.of("..", "config", "examples", "quillmere");
    private static final ObjectMapper JSON = new ObjectMapper();

    private final int brokerPort = FreePorts.tcp();
    private final int linePort = FreePorts.tcp();
    private final int bacnetPort = FreePorts.udp();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private @Nullable Program broker;
    private @Nullable Program bridge;

    @BeforeEach
    void require() {
        for (String program : List.of("mosquitto", "mosquitto_passwd")) {
            OutsideProgram.require(program, "mosquitto");
        }
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("openssl", "openssl");
        OutsideProgram.require("python3", "python3-jsonschema");
    }

    @AfterEach
    void end() {
        for (Program program : new Program[] {bridge, broker}) {
            if (program != null) {
                program.close();
            }
        }
    }

    @Test
    void whoFollowsTheGuideSeesEveryTopicOfTheDocumentsAndNobodyElseMayWriteThem() throws Exception {
        copySite();
        String look = follow();
        assertThat(bridge).isNotNull();
        TreeSet<String> described = new TreeSet<>(definitions().keySet());

        Awaitility.await()
                .atMost(LONG)
                .untilAsserted(
                        () -> assertThat(new TreeSet<>(kept(look).keySet())).isEqualTo(described));

        Map<String, String> kept = kept(look);
        assertThat(described)
                .contains("plant/quillmere/_self/link", "plant/quillmere/plant/about")
                .anyMatch(topic -> topic.startsWith("plant/quillmere/plant/firing"));
        assertMatchSchema(kept);
        String point = described.stream()
                .filter(topic -> topic.startsWith("plant/quillmere/boiler-1/"))
                .findFirst()
                .orElseThrow();
        assertThat(publishing(look, "reader", point)).contains("Not authorized");
        assertThat(publishing(look, "bridge", "plant/elsewhere/boiler-1/oxygen"))
                .contains("Not authorized");
    }

    private void copySite() throws IOException {
        try (Stream<Path> files = Files.walk(EXAMPLE)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Path to = folder.resolve("site").resolve(EXAMPLE.relativize(file));
                Files.createDirectories(to.getParent());
                Files.copy(file, to);
            }
        }
        Path site = folder.resolve("site/site.yaml");
        String text = Files.readString(site)
                .replace("port: 1502", "port: " + linePort)
                .replace("port: 47808", "port: " + bacnetPort);
        assertThat(text).contains("mqtt:\n  brokers: [tcp://127.0.0.1:1883]\n  root: plant\n");
        Files.writeString(site, text.replace("mqtt:\n  brokers: [tcp://127.0.0.1:1883]\n  root: plant\n", ""));
        Files.createDirectories(folder.resolve("etc/mosquitto/conf.d"));
    }

    /** Does what stands there; returns the last command, by which the guide's reader looks. */
    private String follow() throws IOException {
        String look = "";
        for (Block block : new GuidePage("mqtt.md").blocks()) {
            String text = here(String.join("\n", block.lines()));
            if (block.kind().equals("yaml") && text.contains("etc/burner-bridge/mqtt-password")) {
                Path site = folder.resolve("site/site.yaml");
                Files.writeString(site, Files.readString(site) + "\n" + text + "\n");
            } else if (block.kind().equals("conf")) {
                startBroker(text);
            } else if (block.kind().equals("sh") && text.contains("mosquitto_sub")) {
                look = text;
            } else if (block.kind().equals("sh") && block.first().endsWith("burner-bridge run SITE")) {
                startBridge();
            } else if (block.kind().equals("sh") && !block.isByHand()) {
                assertThat(run(text)).as(text).startsWith("0\n");
            }
        }
        assertThat(look).isNotEmpty();
        return look;
    }

    /** Everything in the folder of this test, on ports and under a name of this machine. */
    private String here(String text) {
        return text.replace("/root/authority", folder.resolve("authority").toString())
                .replace("/etc/mosquitto", folder.resolve("etc/mosquitto").toString())
                .replace(
                        "/etc/burner-bridge",
                        folder.resolve("etc/burner-bridge").toString())
                .replace("broker.example", "localhost")
                .replace("listener 8883", "listener " + brokerPort + " 127.0.0.1")
                .replace("8883", Integer.toString(brokerPort))
                .replace(" -o mosquitto", "")
                .replace(" -g burner-bridge", "")
                .replace("runuser -u burner-bridge -- ", "")
                .replaceAll("(?m)^burner-bridge (\\S+) SITE", program() + " $1 " + folder.resolve("site"));
    }

    private static String program() {
        return Path.of(System.getProperty("java.home"), "bin", "java") + " -cp '"
                + System.getProperty("java.class.path") + "' burnerbridge.daemon.Main";
    }

    private void startBroker(String text) throws IOException {
        Path file = Files.writeString(
                folder.resolve("plant.conf"), text + "\nuser " + System.getProperty("user.name") + "\n");
        broker = Program.start(folder.resolve("broker.log"), List.of("mosquitto", "-c", file.toString()));
        Awaitility.await().atMost(LONG).ignoreExceptions().until(() -> {
            new Socket(InetAddress.getLoopbackAddress(), brokerPort).close();
            return true;
        });
    }

    private void startBridge() {
        bridge = Program.start(
                folder.resolve("bridge.log"),
                List.of(
                        "bash",
                        "-c",
                        "exec " + here("burner-bridge run SITE") + " --state " + folder.resolve("state")));
    }

    /** What the guide's reader finds kept on the broker, by topic. */
    private Map<String, String> kept(String look) throws IOException {
        Map<String, String> kept = new TreeMap<>();
        run(look + " --retained-only -W 2")
                .lines()
                .filter(line -> line.contains(" {"))
                .forEach(line -> kept.put(line.substring(0, line.indexOf(' ')), line.substring(line.indexOf(' ') + 1)));
        return kept;
    }

    /** What the broker says to one of its users who writes to a topic. */
    private String publishing(String look, String user, String topic) throws IOException {
        String command = look.replaceFirst("mosquitto_sub", "mosquitto_pub -q 1 -m forged")
                .replaceFirst("'plant/quillmere/#' -v", topic)
                .replace("reader", user);
        return run(command);
    }

    /** Which schema each topic that is kept has, as the description of the topics says. */
    private Map<String, String> definitions() throws IOException {
        JsonNode document = JSON.readTree(Files.readString(folder.resolve("authority/documents/mqtt-asyncapi.json")));
        Map<String, String> definitions = new LinkedHashMap<>();
        for (String name : document.get("channels").propertyNames()) {
            JsonNode channel = document.get("channels").get(name);
            if (!document.get("operations")
                    .get("send." + name)
                    .at("/bindings/mqtt/retain")
                    .asBoolean()) {
                continue;
            }
            String schema =
                    channel.at("/messages/state/payload/$ref").asString().replaceFirst(".*/", "");
            String address = channel.get("address").asString();
            List<String> controllers = new ArrayList<>();
            channel.at("/parameters/controller/enum").forEach(controller -> controllers.add(controller.asString()));
            if (controllers.isEmpty()) {
                definitions.put(address, schema);
            }
            controllers.forEach(controller -> definitions.put(address.replace("{controller}", controller), schema));
        }
        return definitions;
    }

    private void assertMatchSchema(Map<String, String> kept) throws Exception {
        List<String> lines = new ArrayList<>();
        Map<String, String> definitions = definitions();
        kept.forEach((topic, payload) -> lines.add(definitions.get(topic) + "\t" + payload));
        Path messages = Files.write(folder.resolve("messages"), lines);
        String said = run("python3 -W ignore " + OutsideProgram.file("payloads.py") + " "
                + folder.resolve("authority/documents/mqtt-payload.schema.json") + " < " + messages);
        assertThat(said).isEqualTo("0\nchecked " + lines.size() + "\n");
    }

    /** The exit code, a line end, and what was said. */
    private String run(String script) throws IOException {
        Path log = folder.resolve("said");
        Files.deleteIfExists(log);
        try (Program program = Program.start(log, List.of("bash", "-e", "-c", script))) {
            int code = program.awaitEnd();
            return code + "\n" + program.said();
        }
    }
}
