package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.door.Gate;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reason;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * BACnet asks, by an independent client and by hand-made frames, through the gate and real lines to the invented plant, which
 * records every frame that is no read.
 */
class BacnetAsksIT {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final String LIMIT = "2:1120";
    private static final String LIMIT_LEASE = "2:1121";
    private static final String LIMIT_SHOWN = "0:1012";
    private static final String ENABLE = "5:1122";
    private static final String STEAM = "2:3120";
    private static final String DENIED = "Class:2 - Code:40";
    private static final String OUT_OF_RANGE = "Class:2 - Code:37";
    private static final String BUSY = "Class:0 - Code:3";
    private static final int REAL = 4;
    private static final int NULL = 0;
    private static final int ENUMERATED = 9;
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 20, reason: a test}
              - {point: boiler-1.remote-enable, from: {bacnet: [127.0.0.1]}, states: [held, released], interval: 1 s, storage: volatile, function: 5, silence-after: 1 h, on-silence: write held, reason: a test}
              - {point: steam-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 25.5..100, step: 10, interval: 1 h, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 25.5, reason: a test}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final BridgeClock clock = new MachineClock();
    private final StopStack started = new StopStack();

    @SuppressWarnings("NullAway.Init")
    private Quillmere plant;

    @SuppressWarnings("NullAway.Init")
    private Gatehouse gate;

    @SuppressWarnings("NullAway.Init")
    private BacnetAdapter bacnet;

    private @Nullable Process captured;

    @BeforeEach
    void startAll() throws Exception {
        plant = WritablePlant.start();
        started.push(plant);
        Site site = WritablePlant.site(folder.resolve("site"), plant, PERMITS, "")
                .site()
                .orElseThrow();
        ValueTable table = new ValueTable(site.points(), site.owners());
        WriteSide writes = new WriteSide(site, table, clock, Files.createDirectories(folder.resolve("state")));
        gate = writes.gatehouse().orElseThrow();
        bacnet = new BacnetAdapter(settings(site), site, table, clock, Gate.of(gate));
        bacnet.start();
        started.push(bacnet);
        started.push(writes::close);
        LineSide lines = new LineSide(site, table, clock, LineThreads.ofThisJava(), writes.gatehouse());
        started.push(lines);
        lines.start();
        DutyThread duty = new DutyThread("write gate", writes::step, clock);
        started.push(duty);
        duty.start();
        started.push(writes::takeBack);
        until(() -> gate.desk().identitiesNow().size() == 3
                && site.points().stream()
                        .filter(point -> point.id().point().text().matches("load-limit|remote-enable"))
                        .noneMatch(point -> table.reading(point).reason() == Reason.NOT_READ_YET
                                && !point.controller().name().text().equals("boiler-2")));
    }

    private static BacnetSettings settings(Site site) {
        BacnetSettings stated = site.bacnet().orElseThrow();
        return new BacnetSettings(
                stated.deviceInstance(),
                stated.deviceName(),
                "127.0.0.1",
                0,
                Optional.empty(),
                0,
                BacnetOptions.USUAL.withLimits(100_000, 500));
    }

    @AfterEach
    void close() {
        started.close();
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(20))
                .atMost(LONGEST)
                .until(is);
    }

    private void approve() throws Exception {
        assertThat(gate.approve("a person", Optional.empty(), Duration.ofSeconds(30), LockSupport::parkNanos))
                .isTrue();
    }

    private int frames() {
        return plant.names().stream()
                .mapToInt(name -> plant.written(name).size())
                .sum();
    }

    /** The independent client's answer. */
    private String client(String... verb) {
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            int own = free.getLocalPort();
            free.close();
            List<String> command = new ArrayList<>(List.of(
                    "node",
                    OutsideProgram.file("bacnet-client.js").toString(),
                    "127.0.0.1:" + bacnet.port(),
                    Integer.toString(own)));
            command.addAll(List.of(verb));
            return OutsideProgram.output(command);
        } catch (IOException e) {
            throw new AssertionError(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
    }

    private String write(String object, String value, int type, int priority) {
        return client("write", object, "85", value, Integer.toString(type), Integer.toString(priority));
    }

    private void accepted(String object, String value, int type, int priority) {
        until(() -> {
            String said = write(object, value, type, priority);
            assertThat(said).containsAnyOf("accepted", BUSY);
            return said.contains("accepted");
        });
    }

    private String value(String object, int property) {
        return client("read", object, Integer.toString(property))
                .replaceFirst("^.*?:\\[", "[")
                .strip();
    }

    @Test
    void anIndependentClientAsksTakesBackAndIsRefused() throws Exception {
        OutsideProgram.requireBacnetClient();
        assertThat(write(LIMIT, "60", REAL, 8)).contains(DENIED);
        assertThat(value(LIMIT, 103)).isEqualTo("[10]}");
        assertThat(frames()).isZero();
        approve();
        assertThat(write(LIMIT, "101", REAL, 8)).contains(OUT_OF_RANGE);
        assertThat(write(LIMIT, "60", REAL, 6)).contains(DENIED);
        assertThat(write(LIMIT, "1", ENUMERATED, 8)).contains("Class:2 - Code:9");
        // A step that is too large, and one within it, for which it is too early.
        assertThat(write(STEAM, "50", REAL, 8)).contains(OUT_OF_RANGE);
        assertThat(write(STEAM, "99", REAL, 8)).contains(BUSY);
        assertThat(write(LIMIT_LEASE, "60", REAL, 8)).contains(DENIED);
        assertThat(write(LIMIT_SHOWN, "60", REAL, 8)).contains(DENIED);
        assertThat(frames()).isZero();

        accepted(LIMIT, "60.5", REAL, 8);
        assertThat(value(LIMIT, 85)).isEqualTo("[60.5]}");
        assertThat(value(LIMIT, 87)).isEqualTo("[" + "null,".repeat(7) + "60.5" + ",null".repeat(8) + "]}");
        assertThat(value(LIMIT, 431)).isEqualTo("[8]}");
        until(() -> value(LIMIT_SHOWN, 85).equals("[60.5]}"));
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(1);

        accepted(LIMIT, "70", REAL, 3);
        until(() -> value(LIMIT_SHOWN, 85).equals("[70]}"));
        accepted(LIMIT, "0", NULL, 3);
        assertThat(value(LIMIT, 85)).isEqualTo("[60.5]}");
        until(() -> value(LIMIT_SHOWN, 85).equals("[60.5]}"));
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(3);

        accepted(LIMIT, "60.5", REAL, 8);
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(3);
        accepted(ENABLE, "0", ENUMERATED, 10);
        until(() -> plant.written(Quillmere.BOILER_1).size() == 4);

        accepted(LIMIT, "0", NULL, 8);
        assertThat(value(LIMIT, 85)).isEqualTo("[20]}");
        until(() -> value(LIMIT_SHOWN, 85).equals("[20]}"));
        assertThat(frames()).isEqualTo(5);
    }

    @Test
    void anIndependentClientAsksForSeveralAndIsToldOfTheChange() throws Exception {
        OutsideProgram.requireBacnetClient();
        approve();
        CompletableFuture<String> told = CompletableFuture.supplyAsync(() -> client("cov", LIMIT, "2"));
        until(() -> bacnet.subscriptions().orElseThrow().count() == 1);
        until(() -> {
            String said = client("write-multiple", LIMIT + "=55/4," + ENABLE + "=0/9", "9");
            // It cannot read which error this service gives.
            assertThat(said).containsAnyOf("accepted", "error");
            return said.contains("accepted");
        });
        assertThat(told.get())
                .contains("{\"property\":85,\"value\":[20]}")
                .contains("{\"property\":85,\"value\":[55]}");
        until(() -> frames() == 2);
        // The first is renewed, the second is refused, the third never asked for.
        assertThat(client("write-multiple", LIMIT + "=55/4," + STEAM + "=99/4," + ENABLE + "=1/9", "9"))
                .contains("error");
        assertThat(value(ENABLE, 85)).isEqualTo("[0]}");
        assertThat(frames()).isEqualTo(2);
    }

    /** A hand-made station of one address. */
    private final class Asker implements AutoCloseable {
        private final DatagramSocket socket;

        Asker(String own) throws IOException {
            socket = new DatagramSocket(new InetSocketAddress(own, 0));
            socket.setSoTimeout(20_000);
            socket.connect(new InetSocketAddress("127.0.0.1", bacnet.port()));
        }

        /** The application layer's octets of the answer. */
        String ask(String apdu) throws IOException {
            byte[] octets = HexFormat.of().parseHex(apdu.replace(" ", ""));
            byte[] datagram = new byte[octets.length + 6];
            datagram[0] = (byte) 0x81;
            datagram[1] = 0x0A;
            datagram[2] = (byte) (datagram.length >> 8);
            datagram[3] = (byte) datagram.length;
            datagram[4] = 1;
            datagram[5] = 4;
            System.arraycopy(octets, 0, datagram, 6, octets.length);
            socket.send(new DatagramPacket(datagram, datagram.length));
            DatagramPacket reply = new DatagramPacket(new byte[2048], 2048);
            socket.receive(reply);
            return HexFormat.ofDelimiter(" ")
                    .withUpperCase()
                    .formatHex(Arrays.copyOfRange(reply.getData(), 6, reply.getLength()));
        }

        @Override
        public void close() {
            socket.close();
        }
    }

    private static String number(String reply, int octets) {
        String content = reply.replaceFirst("^.* 3E .. ", "").replaceFirst(" 3F$", "");
        return content.substring(0, Math.min(content.length(), 3 * octets - 1)).replace(" ", "");
    }

    /** Every property of every object from the one address that may ask, while everything is approved. */
    @Test
    void noPropertyButThePresentValuesOfRequestsReachesTheLine() throws Exception {
        approve();
        int device = bacnet.objectCount() + 1;
        List<String> permitted = List.of("00800460", "01400462", "00800C30");
        int tried = 0;
        try (Asker asker = new Asker("127.0.0.1")) {
            for (int index = 1; index <= device; index++) {
                String object = number(
                        asker.ask(String.format(Locale.ROOT, "02 05 01 0C 0C 02 3F FF FF 19 4C 2A %04X", index)), 4);
                for (int property : IntStream.concat(IntStream.rangeClosed(20, 120), IntStream.rangeClosed(430, 435))
                        .toArray()) {
                    if (property == 85 && permitted.contains(object)) {
                        continue;
                    }
                    String tag = property < 256
                            ? String.format(Locale.ROOT, "19 %02X", property)
                            : String.format(Locale.ROOT, "1A %04X", property);
                    String value = object.startsWith("03") || object.startsWith("01") ? "91 01" : "44 42 48 00 00";
                    assertThat(asker.ask("00 04 59 0F 0C " + object + tag + " 3E " + value + " 3F 49 08"))
                            .as("%s %s", object, property)
                            .startsWith("50 59 0F 91");
                    tried++;
                }
            }
        }
        assertThat(tried).isGreaterThan(25_000);
        assertThat(gate.statuses()).allMatch(status -> status.slots().isEmpty());
        assertThat(frames()).isZero();
    }

    @Test
    void anAddressThatIsNotInThePermitIsDenied() throws Exception {
        approve();
        String request = "00 04 59 0F 0C 00 80 04 60 19 55 3E 44 42 48 00 00 3F 49 08";
        try (Asker stranger = new Asker("127.0.0.2");
                Asker known = new Asker("127.0.0.1")) {
            assertThat(stranger.ask(request)).isEqualTo("50 59 0F 91 02 91 28");
            until(() -> known.ask(request.replace("04 59", String.format(Locale.ROOT, "04 %02X", frames() + 1)))
                            .startsWith("20")
                    || gate.statuses().get(0).winner().isPresent());
            assertThat(stranger.ask("00 04 60 0F 0C 00 80 04 60 19 55 3E 00 3F 49 08"))
                    .isEqualTo("50 60 0F 91 02 91 28");
        }
        until(() -> frames() == 1);
        assertThat(gate.statuses().get(0).winner()).isPresent();
    }

    private Path capture(int datagrams) throws IOException {
        Path file = folder.resolve("asks.pcapng");
        Path said = folder.resolve("tshark.log");
        Process analyser = new ProcessBuilder(
                        "tshark",
                        "-i",
                        "lo",
                        "-f",
                        "udp port " + bacnet.port(),
                        "-c",
                        Integer.toString(datagrams),
                        "-w",
                        file.toString())
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        started.push(analyser::destroy);
        until(() -> Files.readString(said).contains("Capturing on") && Files.exists(file) && Files.size(file) > 0);
        captured = analyser;
        return file;
    }

    private List<String> fields(Path file, String filter, String... fields) throws Exception {
        List<String> command = new ArrayList<>(
                List.of("tshark", "-r", file.toString(), "-d", "udp.port==" + bacnet.port() + ",bvlc", "-Y", filter));
        command.addAll(List.of("-T", "fields", "-E", "separator=,"));
        for (String field : fields) {
            command.addAll(List.of("-e", field));
        }
        return OutsideProgram.output(command)
                .lines()
                .filter(line -> !line.startsWith("Running as user") && !line.isBlank())
                .toList();
    }

    /** What an independent analyser reads of the asks and the answers, to the last datagram. */
    @Test
    void anIndependentAnalyserReadsTheCodesOfTheStandard() throws Exception {
        OutsideProgram.require("tshark", "tshark");
        String write = "00 04 %02X 0F 0C 00 80 %s 19 55 3E %s 3F 49 %s";
        List<String> asks = List.of(
                String.format(Locale.ROOT, write, 2, "04 60", "44 43 34 00 00", "08"), // 180 of 20 to 100
                String.format(Locale.ROOT, write, 3, "04 60", "91 01", "08"),
                String.format(Locale.ROOT, write, 4, "04 60", "44 42 48 00 00", "06"),
                String.format(Locale.ROOT, write, 5, "0C 30", "44 42 C6 00 00", "08"), // too early
                "00 04 06 10 0C 00 80 04 60 1E 09 55 2E 00 2F 39 08 1F 0C 00 80 0C 30 1E 09 55 2E 44 43 34 00 00 2F 39 08 1F",
                String.format(Locale.ROOT, write, 7, "04 60", "00", "08"),
                "02 75 08 0C 0C 00 80 04 60 19 57",
                "02 75 09 0E 0C 00 80 04 60 1E 09 08 1F");
        Path file = capture(2 + 2 * asks.size());
        try (Asker asker = new Asker("127.0.0.1")) {
            asker.ask(String.format(Locale.ROOT, write, 1, "04 60", "44 42 48 00 00", "08")); // not approved
            approve();
            for (String ask : asks) {
                asker.ask(ask);
            }
        }
        assertThat(Objects.requireNonNull(captured).waitFor(30, TimeUnit.SECONDS))
                .isTrue();
        assertThat(fields(file, "_ws.malformed || _ws.expert.severity == error", "frame.protocols"))
                .isEmpty();
        assertThat(fields(file, "udp && !bacapp", "frame.number")).isEmpty();
        assertThat(fields(
                        file,
                        "bacapp.type == 5",
                        "bacapp.invoke_id",
                        "bacapp.confirmed_service",
                        "bacapp.error_class",
                        "bacapp.error_code"))
                .containsExactly("1,15,2,40", "2,15,2,37", "3,15,2,9", "4,15,2,40", "5,15,0,3", "6,16,2,37");
        assertThat(fields(file, "bacapp.type == 2", "bacapp.invoke_id", "bacapp.confirmed_service"))
                .containsExactly("7,15");
        assertThat(fields(file, "bacapp.type == 3", "bacapp.invoke_id")).containsExactly("8", "9");
        assertThat(frames()).isZero();
    }
}
