package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.SocketAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;

/** Who asks the running bridge sees how it stands with its registration as a foreign device. */
class RegistrationShownIT {
    private static final int PATIENCE_MILLIS = 60_000;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge");
    private final Level level = log.getLevel();

    /** The command silences the log of its process. */
    @AfterEach
    void speakAgain() {
        log.setLevel(level);
    }

    @Test
    void beforeAndAfterTheManagerAnswers() throws Exception {
        try (DatagramSocket manager = new DatagramSocket(0, InetAddress.getLoopbackAddress());
                BridgeHere bridge = new BridgeHere(
                        folder,
                        yaml(manager.getLocalPort()),
                        "name,table,address,format,role\nfuel,holding-register,1,uint16,measurement\n")) {
            bridge.start();
            manager.setSoTimeout(PATIENCE_MILLIS);
            SocketAddress asker = awaitRequest(manager);
            assertThat(values(bridge))
                    .containsPattern(
                            "site quillmere, BACnet foreign device: (asking|no-reply), from the running bridge");

            byte[] done = HexFormat.of().parseHex("810000060000");
            await().atMost(Duration.ofMillis(PATIENCE_MILLIS)).untilAsserted(() -> {
                manager.send(new DatagramPacket(done, done.length, asker));
                assertThat(values(bridge)).contains("BACnet foreign device: registered");
            });
        }
    }

    /** Register-Foreign-Device for 60 s (ASHRAE 135, J.2.6); what is to be distributed before it is passed over. */
    private static SocketAddress awaitRequest(DatagramSocket manager) throws IOException {
        DatagramPacket heard = new DatagramPacket(new byte[100], 100);
        String octets = "";
        while (!octets.equals("81050006003c")) {
            manager.receive(heard);
            octets = HexFormat.of().formatHex(heard.getData(), 0, heard.getLength());
            heard.setLength(100);
        }
        return heard.getSocketAddress();
    }

    private static String yaml(int managerPort) throws Exception {
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return String.format(Locale.ROOT, """
                    site: quillmere
                    time-zone: Europe/Lisbon
                    lines:
                      annex: {tcp: {host: 127.0.0.1, port: 1}}
                    types:
                      hot-water: {points: points.csv, numbering: wire}
                    controllers:
                      boiler-1: {line: annex, unit: 1, type: hot-water}
                    bacnet: {device-instance: 3, bind: 127.0.0.1, port: %d,
                        foreign-device: {host: 127.0.0.1, port: %d, lifetime: 60}}
                    """, free.getLocalPort(), managerPort);
        }
    }

    private static String values(BridgeHere bridge) {
        StringWriter out = new StringWriter();
        CommandLine command = Main.commandLine();
        command.setOut(new PrintWriter(out, true));
        command.execute("values", bridge.site().toString(), "--once", "--wait=0", "--state=" + bridge.state());
        return out.toString();
    }
}
