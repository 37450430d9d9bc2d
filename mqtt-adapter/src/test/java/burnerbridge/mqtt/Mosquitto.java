package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.mqtt.Subscriber.Retained;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** The mosquitto broker as a child process on loopback,. */
public final class Mosquitto implements RunningBroker {
    private static final List<Path> FOLDERS =
            List.of(Path.of("/usr/sbin"), Path.of("/usr/local/sbin"), Path.of("/usr/bin"), Path.of("/usr/local/bin"));

    private final Path configuration;
    private final int port;
    private Process process;

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
                "allow_anonymous " + Stream.of(further).noneMatch(line -> line.startsWith("password_file")),
                "persistence false",
                "user " + System.getProperty("user.name")));
        lines.addAll(List.of(further));
        try {
            return new Mosquitto(Files.write(folder.resolve("mosquitto-" + port + ".conf"), lines), port);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Adds a user to a file of passwords. */
    public static void addPassword(Path file, String user, String password) {
        awaitEnd(run(program("mosquitto_passwd"), "-b", file.toString(), user, password));
    }

    @Override
    public int port() {
        return port;
    }

    @Override
    public void kill() {
        process.destroyForcibly();
        awaitEnd(process);
    }

    @Override
    public void startAgain() {
        process = run(program("mosquitto"), "-c", configuration.toString());
        awaitPort();
    }

    /** What a subscriber that comes now and needs no password is given at once. */
    public Retained retained() {
        return new Subscriber(port, List.of()).retained();
    }

    /** Runs one of the broker's programs against it. */
    public Process client(String program, String... arguments) {
        List<String> command =
                new ArrayList<>(List.of(program(program), "-h", "127.0.0.1", "-p", Integer.toString(port), "-V", "5"));
        command.addAll(List.of(arguments));
        return run(command.toArray(String[]::new));
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
