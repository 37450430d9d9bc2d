package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The mosquitto broker as a child process on loopback, and its own subscriber to look at what it holds. */
public final class Mosquitto implements AutoCloseable {
    private static final List<Path> FOLDERS =
            List.of(Path.of("/usr/sbin"), Path.of("/usr/local/sbin"), Path.of("/usr/bin"), Path.of("/usr/local/bin"));
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final Path configuration;
    private final int port;
    private Process process;

    /**
     * What the broker delivered.
     *
     * @param expiry seconds that are left of its message expiry interval; -1 where it has none
     */
    public record Delivered(boolean retained, int quality, long expiry, String topic, JsonNode payload) {}

    /** What the broker holds, by topic. */
    public record Retained(Map<String, Delivered> byTopic) {

        public boolean has(String topic) {
            return byTopic.containsKey(topic);
        }

        public Delivered of(String topic) {
            Delivered delivered = byTopic.get(topic);
            if (delivered == null) {
                throw new AssertionError(topic + " is not retained");
            }
            return delivered;
        }

        public JsonNode valueOf(String topic) {
            return of(topic).payload().path("value");
        }
    }

    private Mosquitto(Path configuration, int port) {
        this.configuration = configuration;
        this.port = port;
        this.process = run(program("mosquitto"), "-c", configuration.toString());
        awaitPort();
    }

    /** Skips the test where mosquitto is missing, or fails it where outside checks are required. */
    public static void require() {
        boolean found = isThere("mosquitto") && isThere("mosquitto_sub");
        if (!found && "required".equals(System.getenv("BURNER_BRIDGE_OUTSIDE"))) {
            throw new AssertionError(
                    "mosquitto and mosquitto_sub are required: apt-get install mosquitto mosquitto-clients");
        }
        Assumptions.assumeTrue(
                found, "skipped without mosquitto and mosquitto_sub: apt-get install mosquitto mosquitto-clients");
    }

    public static int freePort() {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public static Mosquitto start(Path folder, int port, String... further) {
        List<String> lines = new ArrayList<>(List.of(
                "listener " + port + " 127.0.0.1",
                "allow_anonymous true",
                "persistence false",
                "user " + System.getProperty("user.name")));
        lines.addAll(List.of(further));
        try {
            return new Mosquitto(Files.write(folder.resolve("mosquitto-" + port + ".conf"), lines), port);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public int port() {
        return port;
    }

    public void kill() {
        process.destroyForcibly();
        awaitEnd(process);
    }

    public void startAgain() {
        process = run(program("mosquitto"), "-c", configuration.toString());
        awaitPort();
    }

    /** What a subscriber that comes now is given at once. */
    public Retained retained() {
        Process subscriber = run(
                program("mosquitto_sub"),
                "-h",
                "127.0.0.1",
                "-p",
                Integer.toString(port),
                "-V",
                "5",
                "-q",
                "1",
                "-t",
                "#",
                "--retained-only",
                "-W",
                "1",
                "-F",
                "%r\t%q\t%E\t%t\t%p");
        Map<String, Delivered> delivered = new LinkedHashMap<>();
        subscriber
                .inputReader(StandardCharsets.UTF_8)
                .lines()
                .map(Mosquitto::parse)
                .forEach(d -> delivered.put(d.topic(), d));
        awaitEnd(subscriber);
        return new Retained(delivered);
    }

    /** Runs one of the broker's programs against it. */
    public Process client(String program, String... arguments) {
        List<String> command =
                new ArrayList<>(List.of(program(program), "-h", "127.0.0.1", "-p", Integer.toString(port), "-V", "5"));
        command.addAll(List.of(arguments));
        return run(command.toArray(String[]::new));
    }

    @Override
    public void close() {
        kill();
    }

    private static Delivered parse(String line) {
        String[] parts = line.split("\t", 5);
        long expiry = parts[2].isEmpty() ? -1 : Long.parseLong(parts[2]);
        return new Delivered(
                parts[0].equals("1"), Integer.parseInt(parts[1]), expiry, parts[3], JSON.readTree(parts[4]));
    }

    private void awaitPort() {
        await().atMost(Duration.ofSeconds(10)).until(() -> {
            assertThat(process.isAlive()).as("mosquitto runs").isTrue();
            try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return socket.isConnected();
            } catch (IOException e) {
                return false;
            }
        });
    }

    private static void awaitEnd(Process process) {
        try {
            assertThat(process.waitFor(10, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static Process run(String... command) {
        try {
            return new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean isThere(String program) {
        return FOLDERS.stream().anyMatch(folder -> Files.isExecutable(folder.resolve(program)));
    }

    private static String program(String name) {
        return FOLDERS.stream()
                .map(folder -> folder.resolve(name))
                .filter(Files::isExecutable)
                .findFirst()
                .orElseThrow(() -> new AssertionError(name + " is missing"))
                .toString();
    }
}
