package burnerbridge.benchmark.program;

import burnerbridge.benchmark.measure.MachineClock;
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

/** The broker and its own programs, as they come with a Debian system. */
public final class Mosquitto implements AutoCloseable {
    private static final int MOST_LOOKS = 100;

    private final int port;
    private final Program broker;

    private Mosquitto(int port, Program broker) {
        this.port = port;
        this.broker = broker;
    }

    /**
     * Starts it, on a free port of loopback, with nothing kept.
     *
     * @param receiveMaximum how many messages it takes at once
     */
    public static Mosquitto start(Path folder, int receiveMaximum) {
        int port = freePort();
        Path configuration = folder.resolve("mosquitto.conf");
        try {
            Files.write(
                    configuration,
                    List.of(
                            "listener " + port + " 127.0.0.1",
                            "allow_anonymous true",
                            "persistence false",
                            "max_inflight_messages " + receiveMaximum,
                            "max_queued_messages 0",
                            "user " + System.getProperty("user.name")));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        String program = Files.isExecutable(Path.of("/usr/sbin/mosquitto")) ? "/usr/sbin/mosquitto" : "mosquitto";
        Mosquitto started = new Mosquitto(
                port,
                Program.startInto(folder.resolve("mosquitto.log"), List.of(program, "-c", configuration.toString())));
        started.awaitPort();
        return started;
    }

    public int port() {
        return port;
    }

    /** A subscriber that is told each new message of some filters by a line that holds the payload. */
    public Program subscriber(String... filters) {
        return subscriber("%p", filters);
    }

    /** The same, by a line that holds the topic, a space and the payload. */
    public Program subscriberOfTopics(String... filters) {
        return subscriber("%t %p", filters);
    }

    private Program subscriber(String line, String... filters) {
        List<String> command = new ArrayList<>(
                List.of("mosquitto_sub", "-h", "127.0.0.1", "-p", portText(), "-V", "5", "-q", "1", "-R", "-F", line));
        for (String filter : filters) {
            command.addAll(List.of("-t", filter));
        }
        return Program.start(command.toArray(new String[0]));
    }

    /** Its own publisher: sends each line of a file; says how much processor time it took, user and system. */
    public Program publisher(String topic, Path lines) {
        String command = "TIMEFORMAT='%U %S'; time mosquitto_pub -h 127.0.0.1 -p " + port + " -V 5 -q 1 -t " + topic
                + " -l < " + lines;
        return Program.startWithErrors("bash", "-c", command);
    }

    private String portText() {
        return Integer.toString(port);
    }

    private void awaitPort() {
        for (int look = 0; look < MOST_LOOKS; look++) {
            try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return;
            } catch (IOException e) {
                new MachineClock().pause(Duration.ofMillis(50));
            }
        }
        throw new IllegalStateException("mosquitto does not listen");
    }

    private static int freePort() {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        broker.close();
    }
}
