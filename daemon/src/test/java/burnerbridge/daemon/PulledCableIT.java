package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketTimeoutException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A line's cable is pulled and plugged in again, as a subscriber in the building sees it; the bridge is whole. */
class PulledCableIT {
    private static final int POINTS = 80;
    private static final int BASE = 1000;
    private static final int BINARY_INPUT = 3;
    private static final int TYPE_SHIFT = 22;
    /** So long nothing more may come. */
    private static final int QUIET_MILLIS = 1500;

    private static final Duration PATIENCE = Duration.ofSeconds(90);

    /** What a controller holds never changes. */
    private static final RegisterImage IMAGE = (table, address, count) ->
            Optional.of(IntStream.range(address, address + count).toArray());

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final FieldDevice device = new FieldDevice(
            new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), Map.of(1, IMAGE), UnknownUnit.SILENT);
    private final StopStack started = new StopStack();
    private final HexFormat hex = HexFormat.ofDelimiter(" ").withUpperCase();

    @SuppressWarnings("NullAway.Init")
    private DatagramSocket station;

    private int bacnetPort;

    @BeforeEach
    void start() throws Exception {
        device.start();
        started.push(device);
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            bacnetPort = free.getLocalPort();
        }
        BridgeHere bridge = new BridgeHere(folder, siteYaml(), points());
        started.push(bridge);
        bridge.start();
        station = new DatagramSocket(0, InetAddress.getLoopbackAddress());
        started.push(station);
    }

    @AfterEach
    void end() {
        started.close();
    }

    private static String points() {
        StringBuilder points = new StringBuilder("name,table,address,format,role,every,stale-after\n");
        for (int i = 1; i <= POINTS; i++) {
            points.append("value-").append(i).append(",holding-register,").append(i);
            points.append(",uint16,measurement,500 ms,5 s\n");
        }
        return points.toString();
    }

    private String siteYaml() {
        return String.format(Locale.ROOT, """
                site: quillmere
                time-zone: Europe/Lisbon
                lines:
                  annex: {tcp: {host: 127.0.0.1, port: %d}, reply-timeout: 300 ms}
                types:
                  hot-water: {points: points.csv, numbering: wire}
                controllers:
                  boiler-1: {line: annex, unit: 1, type: hot-water, instance-base: %d}
                bacnet: {device-instance: 3, bind: 127.0.0.1, port: %d}
                """, device.port(), BASE, bacnetPort);
    }

    @Test
    void isOneChangeOfEachObjectAndOneBack() throws IOException {
        List<Integer> points =
                IntStream.rangeClosed(BASE + 1, BASE + POINTS).boxed().toList();
        int link = BINARY_INPUT << TYPE_SHIFT | BASE;
        Map<Integer, List<String>> first = new TreeMap<>();
        points.forEach(point -> awaitFlags(point, "00"));
        awaitFlags(link, "00");
        points.forEach(point -> subscribe(point, first));
        subscribe(link, first);
        assertThat(first).hasSize(POINTS + 1);
        assertThat(first.get(link)).containsExactly("91 01 flags 00");

        device.pullCable();
        Map<Integer, List<String>> pulled = told(POINTS + 1);
        // Present_Value stays and the fault flag is set; the object of the controller is inactive, which is no fault.
        points.forEach(point -> assertThat(pulled.get(point)).containsExactly(withFault(first, point)));
        assertThat(pulled.get(link)).containsExactly("91 00 flags 00");
        assertThat(reliability(points.get(0))).endsWith("3E 91 0C 3F"); // communication-failure

        device.plugCableIn();
        Map<Integer, List<String>> back = told(POINTS + 1);
        points.forEach(point -> assertThat(back.get(point)).isEqualTo(first.get(point)));
        assertThat(back.get(link)).containsExactly("91 01 flags 00");
        assertThat(reliability(points.get(0))).endsWith("3E 91 00 3F");
    }

    private static String withFault(Map<Integer, List<String>> first, int point) {
        assertThat(first.get(point)).hasSize(1);
        return first.get(point).get(0).replace("flags 00", "flags 40");
    }

    /** What each object told, until all have and then nothing comes for a while. */
    private Map<Integer, List<String>> told(int objects) throws IOException {
        Map<Integer, List<String>> told = new TreeMap<>();
        await().atMost(PATIENCE)
                .pollInterval(Duration.ofMillis(1))
                .pollInSameThread()
                .until(() -> {
                    hear(100).ifPresent(message -> note(message, told));
                    return told.size() == objects;
                });
        for (Optional<String> more = hear(QUIET_MILLIS); more.isPresent(); more = hear(QUIET_MILLIS)) {
            note(more.get(), told);
        }
        return told;
    }

    /** Of {@code 10 02 09 pp 1C device 2C object 39 left 4E 09 55 2E value 2F 09 6F 2E 82 04 flags 2F 4F}. */
    private static void note(String notification, Map<Integer, List<String>> told) {
        assertThat(notification).startsWith("10 02 09 12 1C 02 00 00 03 2C");
        int object = Integer.parseUnsignedInt(notification.substring(30, 41).replace(" ", ""), 16);
        String value = notification.replaceFirst(".* 09 55 2E (.*) 2F 09 6F 2E 82 04 (..) 2F 4F$", "$1 flags $2");
        told.computeIfAbsent(object, o -> new ArrayList<>()).add(value);
    }

    private void subscribe(int object, Map<Integer, List<String>> told) {
        send(String.format(Locale.ROOT, "00 05 07 05 09 12 1C %08X 29 00 3A 70 80", object));
        List<String> both = new ArrayList<>(List.of(heard(), heard()));
        Collections.sort(both);
        assertThat(both.get(1)).isEqualTo("20 07 05");
        note(both.get(0), told);
    }

    private void awaitFlags(int object, String flags) {
        await().atMost(PATIENCE)
                .pollDelay(Duration.ZERO)
                .pollInSameThread()
                .until(() -> ask(object, 111).endsWith("3E 82 04 " + flags + " 3F"));
    }

    private String reliability(int object) {
        return ask(object, 103);
    }

    private String ask(int object, int property) {
        send(String.format(Locale.ROOT, "00 05 07 0C 0C %08X 19 %02X", object, property));
        return hear(10_000).orElse("");
    }

    private String heard() {
        return hear((int) PATIENCE.toMillis()).orElseThrow(() -> new AssertionError("nothing came"));
    }

    private void send(String apdu) {
        byte[] octets = HexFormat.of().parseHex("810A000001 04".replace(" ", "") + apdu.replace(" ", ""));
        octets[3] = (byte) octets.length;
        try {
            station.send(new DatagramPacket(
                    octets, octets.length, new InetSocketAddress(InetAddress.getLoopbackAddress(), bacnetPort)));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    /** The application layer's part of the next datagram. */
    private Optional<String> hear(int millis) {
        DatagramPacket packet = new DatagramPacket(new byte[1500], 1500);
        try {
            station.setSoTimeout(millis);
            station.receive(packet);
            return Optional.of(hex.formatHex(packet.getData(), 6, packet.getLength()));
        } catch (SocketTimeoutException e) {
            return Optional.empty();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
