package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.device.WrittenFrame;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Two front ends on BACnet and somebody on MQTT want different things of one burner, and then fall silent one after the
 * other: who wins, who is told what, and what is on the wire, in its order and not before its time.
 */
class WhoWinsIT {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final Duration LEASE = Duration.ofSeconds(6);
    private static final String TOPIC = "plant/quillmere/boiler-1/load-limit";
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1], mqtt: true}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 6 s, on-silence: write 20, reason: a test}
            """;
    private static final JsonMapper JSON = JsonMapper.builder().build();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final StopStack started = new StopStack();
    private final int bacnetPort = FreePorts.udp();
    private final int brokerPort = FreePorts.tcp();
    private final List<String> timeLine = new ArrayList<>();
    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge");
    private final Level level = log.getLevel();

    @SuppressWarnings("NullAway.Init")
    private Quillmere plant;

    private long begin;
    private int asks;

    @BeforeAll
    static void require() {
        OpenBroker.require();
        OutsideProgram.require("mosquitto_rr", "mosquitto-clients");
    }

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

    private void startAll() throws Exception {
        plant = WritablePlant.start();
        started.push(plant);
        started.push(OpenBroker.start(folder, brokerPort));
        Path siteFolder = folder.resolve("site");
        WritablePlant.site(
                siteFolder, plant, PERMITS, "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + bacnetPort + "}");
        Path yaml = siteFolder.resolve("site.yaml");
        Files.writeString(yaml, Files.readString(yaml).replace("127.0.0.1:1883]", "127.0.0.1:" + brokerPort + "]"));
        WholeBridge.start(siteFolder, folder.resolve("state"), started);
        until(() -> WholeBridge.isApproved(siteFolder, folder.resolve("state")));
    }

    private JsonNode mqtt(String value) throws Exception {
        String said = OutsideProgram.output(List.of(
                "mosquitto_rr",
                "-V",
                "5",
                "-h",
                "127.0.0.1",
                "-p",
                Integer.toString(brokerPort),
                "-q",
                "1",
                "-t",
                TOPIC + "/ask",
                "-e",
                TOPIC + "/reply/optimiser",
                "-m",
                "{\"value\": " + value + ", \"by\": \"plant optimiser\"}",
                "-D",
                "publish",
                "correlation-data",
                "a" + ++asks,
                "-D",
                "publish",
                "message-expiry-interval",
                "30",
                "-W",
                "30"));
        assertThat(said).startsWith("{");
        return JSON.readTree(said);
    }

    /** An ask is refused while the interval since the last write is not over, whatever its slot. */
    private JsonNode afterTheInterval(String value) throws Exception {
        List<JsonNode> answers = new ArrayList<>();
        until(() -> {
            answers.add(mqtt(value));
            return !answers.get(answers.size() - 1).path("code").asString().equals("interval");
        });
        return answers.get(answers.size() - 1);
    }

    /** What was written so far, in tenths of a percent. */
    private List<Integer> written() {
        return plant.written(Quillmere.BOILER_1).stream().map(WhoWinsIT::value).toList();
    }

    private static int value(WrittenFrame frame) {
        return (frame.bytes()[4] & 0xFF) << 8 | frame.bytes()[5] & 0xFF;
    }

    private long at(int write) {
        return plant.written(Quillmere.BOILER_1).get(write).nanos();
    }

    private void said(String what) {
        timeLine.add((System.nanoTime() - begin) / 1_000_000 + " ms: " + what);
    }

    private void writtenUntil(int count) {
        until(() -> written().size() >= count);
        said("on the wire: " + written().get(count - 1));
    }

    @Test
    void theLowestSlotWinsEverybodyIsToldAndWhoFallsSilentLosesItInItsTime() throws Exception {
        startAll();
        begin = System.nanoTime();
        try (HandMadeStation operator = new HandMadeStation(bacnetPort);
                HandMadeStation schedule = new HandMadeStation(bacnetPort)) {
            until(() -> schedule.write(60, 8).startsWith("20"));
            writtenUntil(1);
            JsonNode behind = afterTheInterval("70");
            said("MQTT asks for 70: " + behind);
            assertThat(behind.path("result").asString()).isEqualTo("behind");
            assertThat(behind.path("winner").path("slot").asInt()).isEqualTo(8);
            assertThat(behind.path("winner").path("source").asString()).endsWith(":" + schedule.port());

            until(() -> operator.write(50, 5).startsWith("20"));
            writtenUntil(2);
            assertThat(schedule.description()).contains("slot 5, bacnet 127.0.0.1:" + operator.port());
            // A lower slot keeps what it asked for, and renews it, whoever wins.
            assertThat(schedule.write(60, 8)).startsWith("20");
            assertThat(written()).containsExactly(600, 500);

            assertThat(operator.relinquish(5)).startsWith("20");
            said("the operator gives slot 5 up");
            writtenUntil(3);
            assertThat(schedule.description()).contains("slot 8, bacnet 127.0.0.1:" + schedule.port());
            assertThat(schedule.write(60, 8)).startsWith("20");
        }
        long last = System.nanoTime();
        said("both front ends are gone; MQTT goes on");
        until(() -> {
            mqtt("70");
            return written().size() >= 4;
        });
        said("on the wire: " + written().get(3));
        assertThat(at(3) - last)
                .as("whoever is gone keeps its slot for its time")
                .isGreaterThan(LEASE.minusSeconds(1).toNanos());
        JsonNode renewed = mqtt("70");
        assertThat(renewed.path("result").asString()).isEqualTo("accepted");
        assertThat(renewed.path("value").decimalValue()).isEqualByComparingTo("70");
        last = System.nanoTime();
        said("MQTT is gone, too");
        writtenUntil(5);
        assertThat(at(4) - last).isGreaterThan(LEASE.minusSeconds(1).toNanos());
        assertThat(written()).containsExactly(600, 500, 600, 700, 200);
        timeLine.forEach(System.out::println);
    }
}
