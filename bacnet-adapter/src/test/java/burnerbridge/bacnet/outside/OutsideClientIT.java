package burnerbridge.bacnet.outside;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.EveryService;
import burnerbridge.bacnet.EveryType;
import burnerbridge.bacnet.Rig;
import burnerbridge.bacnet.device.UnitNames;
import burnerbridge.model.RunningClock;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.unit.Unit;
import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** An independent client reads every type of object, and an independent table names every unit. */
final class OutsideClientIT {
    private static final Path OUTSIDE = Path.of("../outside");
    private static final int NO_UNITS = 95;

    @BeforeAll
    static void requireClient() {
        OutsideProgram.require("node", "nodejs");
        OutsideProgram.require(
                Files.isDirectory(OUTSIDE.resolve("node_modules/@bacnet-js/client")),
                "the BACnet client",
                "npm ci --prefix outside");
    }

    private static int freePort() throws IOException {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    private static String ask(int port, String verb, String objects, String properties)
            throws IOException, InterruptedException {
        return OutsideProgram.output(List.of(
                "node",
                OUTSIDE.resolve("bacnet-client.js").toString(),
                "127.0.0.1:" + port,
                Integer.toString(freePort()),
                verb,
                objects,
                properties));
    }

    private static String name(EveryType type) {
        return type.type + ":" + type.instance();
    }

    @Test
    void everyTypeIsReadAndEveryPropertyUnderstood() throws IOException, InterruptedException {
        try (Rig rig = new Rig(EveryType.plant(new RunningClock(), ZoneOffset.UTC), BacnetOptions.USUAL)) {
            Arrays.stream(EveryType.values()).forEach(type -> rig.plant.good(type.point(), type.first));
            await().untilAsserted(() -> assertThat(rig.station.ask("00 05 01 0C 0C 0B 00 00 0C 19 55"))
                    .contains("A4 7E 0B 19 03"));
            String objects =
                    Arrays.stream(EveryType.values()).map(OutsideClientIT::name).collect(Collectors.joining(","));
            String values = ask(rig.adapter.port(), "read", objects, "85");
            assertThat(values)
                    .contains("\"0:1:85\":[72.5]", "\"3:2:85\":[0]", "\"13:3:85\":[1]", "\"2:4:85\":[1.5]")
                    .contains("\"5:5:85\":[1]", "\"19:6:85\":[2]", "\"45:7:85\":[-2147483648]")
                    .contains("\"48:8:85\":[4294967295]", "\"46:9:85\":[42949672.95]", "\"23:10:85\":[12345678]")
                    .contains("\"40:11:85\":[\"A-17\"]", "\"44:12:85\":[\"2026-11-25T");
            // Every property of every object at once, in segments.
            String all = ask(rig.adapter.port(), "read-multiple", objects + ",8:3,29:0,3:0", "8");
            assertThat(all).doesNotContain("error");
            for (EveryType type : EveryType.values()) {
                assertThat(all).contains("\"" + name(type) + ":77\":[\"boiler-1." + type.point() + "\"]");
            }
            assertThat(all).contains("\"29:0:77\":[\"boiler-1\"]", "\"3:0:77\":[\"boiler-1.link\"]", "\"8:3:107\":[0]");
        }
    }

    @Test
    void everyUnitHasItsNumberInAnIndependentTable() throws IOException, InterruptedException {
        Map<Integer, String> independent = new HashMap<>();
        OutsideProgram.output(List.of("node", OUTSIDE.resolve("bacnet-units.js").toString()))
                .lines()
                .map(line -> line.split(" ", -1))
                .forEach(pair -> independent.put(Integer.parseInt(pair[0]), pair[1]));
        assertThat(independent.get(Unit.of("S/m").bacnetNumber())).endsWith("s-per-meter");
        Map<String, String> ours = new HashMap<>(Map.of("pH", "ph")); // spelled otherwise there
        UnitNames.all().forEach((symbol, name) -> ours.putIfAbsent(symbol, name));
        int compared = 0;
        for (Unit unit : Unit.all()) {
            if (unit.bacnetNumber() != NO_UNITS && !unit.isDifference() && ours.containsKey(unit.symbol())) {
                assertThat(independent.get(unit.bacnetNumber()))
                        .as(unit.symbol())
                        .isEqualTo(ours.get(unit.symbol()));
                compared++;
            }
        }
        assertThat(compared).isGreaterThan(100);
    }

    @Test
    void everyServiceHasItsNumberInAnIndependentTable() throws IOException, InterruptedException {
        List<String> independent = OutsideProgram.output(
                        List.of("node", OUTSIDE.resolve("bacnet-services.js").toString()))
                .lines()
                .toList();
        assertThat(independent).hasSizeGreaterThan(40);
        List<String> ours = EveryService.all().stream()
                .map(service -> (service.confirmed() ? "confirmed " : "unconfirmed ") + service.choice() + " "
                        + plain(service.name()))
                .toList();
        assertThat(ours).containsAll(independent);
    }

    private static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replace("-", "");
    }
}
