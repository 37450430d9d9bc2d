package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateFolder;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.PortUnreachableException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;

/** The whole bridge, as it runs: a person approves by the command, BACnet asks, and the plant is written. */
class BridgeTakesAsksIT {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 20, reason: a test}
            """;
    private static final String DESCRIPTION = "02 75 %02X 0C 0C 00 80 04 60 19 1C";
    private static final String WRITE = "00 04 %02X 0F 0C 00 80 04 60 19 55 3E 44 42 72 00 00 3F 49 08"; // 60.5

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final StopStack started = new StopStack();
    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge");
    private final Level level = log.getLevel();
    private int invokeId;

    /** The command silences the log of its process. */
    @AfterEach
    void close() {
        started.close();
        log.setLevel(level);
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(50))
                .atMost(LONGEST)
                .until(is);
    }

    private void startBridge(Quillmere plant, int bacnetPort) throws Exception {
        Path site = folder.resolve("site");
        Site loaded = WritablePlant.site(
                        site, plant, PERMITS, "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + bacnetPort + "}")
                .site()
                .orElseThrow();
        MachineClock clock = new MachineClock();
        Occupant self = new Occupant(
                "test",
                ProcessHandle.current().pid(),
                clock.now().wall(),
                loaded.name().text(),
                site);
        StateFolder taken = StateFolder.take(folder.resolve("state"), self);
        started.push(taken);
        Bridge bridge = new Bridge(loaded, clock, LineThreads.ofThisJava(), taken);
        started.push(bridge);
        bridge.start();
    }

    private int approve() {
        StringWriter said = new StringWriter();
        CommandLine command = Main.commandLine();
        command.setOut(new PrintWriter(said, true));
        command.setErr(new PrintWriter(said, true));
        return command.execute(
                "permits",
                folder.resolve("site").toString(),
                "--state=" + folder.resolve("state"),
                "--approve=a person");
    }

    /** The application layer's octets of the answer; empty where none came yet. */
    private String ask(DatagramSocket socket, String apdu) throws Exception {
        invokeId = invokeId % 255 + 1;
        byte[] octets = HexFormat.of()
                .parseHex(String.format(Locale.ROOT, apdu, invokeId).replace(" ", ""));
        byte[] datagram = new byte[octets.length + 6];
        System.arraycopy(new byte[] {(byte) 0x81, 0x0A, 0, (byte) datagram.length, 1, 4}, 0, datagram, 0, 6);
        System.arraycopy(octets, 0, datagram, 6, octets.length);
        socket.send(new DatagramPacket(datagram, datagram.length));
        DatagramPacket reply = new DatagramPacket(new byte[2048], 2048);
        try {
            socket.receive(reply);
        } catch (SocketTimeoutException | PortUnreachableException e) {
            return "";
        }
        return HexFormat.of().formatHex(Arrays.copyOfRange(reply.getData(), 6, reply.getLength()));
    }

    private String description(DatagramSocket socket) throws Exception {
        return new String(HexFormat.of().parseHex(ask(socket, DESCRIPTION)), StandardCharsets.UTF_8);
    }

    @Test
    void whatAPersonHasApprovedIsWrittenAndTakenBackAtTheEnd() throws Exception {
        Quillmere plant = WritablePlant.start();
        started.push(plant);
        int port;
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        startBridge(plant, port);
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            socket.setSoTimeout(5_000);
            socket.connect(new InetSocketAddress("127.0.0.1", port));
            until(() -> description(socket).contains("nobody asks; not approved"));
            assertThat(ask(socket, WRITE)).endsWith("0f91029128");
            until(() -> approve() == ExitCode.FINE);
            until(() -> ask(socket, WRITE).startsWith("20"));
            assertThat(description(socket)).contains("slot 8, bacnet 127.0.0.1:" + socket.getLocalPort());
            until(() -> plant.written(Quillmere.BOILER_1).size() == 1);
        }
        started.close();
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(2);
        assertThat(plant.written(Quillmere.STEAM_1)).isEmpty();
    }
}
