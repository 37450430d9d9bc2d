package burnerbridge.daemon;

import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.awaitility.Awaitility;

/** mosquitto on a port of loopback, which lets everybody do everything. */
final class OpenBroker {
    private static final String DEBIAN = "/usr/sbin/mosquitto";
    private static final String ELSEWHERE = "/usr/bin/mosquitto";

    private OpenBroker() {}

    static void require() {
        OutsideProgram.require(
                Files.isExecutable(Path.of(DEBIAN)) || Files.isExecutable(Path.of(ELSEWHERE)),
                "the program mosquitto",
                "apt-get install mosquitto");
    }

    static String program() {
        return Files.isExecutable(Path.of(DEBIAN)) ? DEBIAN : ELSEWHERE;
    }

    /** Runs when this returns. */
    static Program start(Path folder, int port) throws IOException {
        Path conf = Files.writeString(
                folder.resolve("mosquitto.conf"),
                String.join(
                        "\n",
                        "listener " + port + " 127.0.0.1",
                        "allow_anonymous true",
                        "persistence false",
                        "max_queued_messages 0",
                        "max_inflight_messages 0",
                        "user " + System.getProperty("user.name"),
                        ""));
        Program broker = Program.start(folder.resolve("broker.log"), List.of(program(), "-c", conf.toString()));
        Awaitility.await().atMost(Duration.ofSeconds(60)).until(() -> {
            try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return socket.isConnected();
            } catch (IOException e) {
                return false;
            }
        });
        return broker;
    }
}
