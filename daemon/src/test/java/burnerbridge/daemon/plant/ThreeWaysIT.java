package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole example site beside its frozen plant, read three ways by programs that others wrote: the registers through
 * the plant's second door and scaled by a script, MQTT, and BACnet/IP.
 */
class ThreeWaysIT {
    private static final Duration LONGEST = Duration.ofMinutes(4);
    /** The group of the site: how many are firing, available, locked out. */
    private static final int COUNTS = 3;

    private static final Pattern SUMMARY =
            Pattern.compile("compared by hand: (\\d+) points over MQTT, (\\d+) over BACnet; (\\d+) differ");

    private final int brokerPort = FreePorts.tcp();
    private final int bacnetPort = FreePorts.udp();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    private @Nullable Program broker;
    private @Nullable Program bridge;

    @BeforeEach
    void start() throws IOException {
        OutsideProgram.require("mbpoll", "mbpoll");
        OutsideProgram.require("mosquitto", "mosquitto");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("python3", "python3");
        OutsideProgram.requireBacnetClient();
        frozen = new FrozenPlant();
    }

    @AfterEach
    void end() {
        Stream.of(bridge, broker).forEach(program -> {
            if (program != null) {
                program.close();
            }
        });
        frozen.close();
    }

    @Test
    void firingAndLockedOut() throws IOException {
        frozen.firingAndLockedOut();
        everyPointIsTheSameThreeWays();
    }

    @Test
    void startingAndOnOil() throws IOException {
        frozen.startingAndOnOil();
        everyPointIsTheSameThreeWays();
    }

    private void everyPointIsTheSameThreeWays() throws IOException {
        Path site = frozen.siteForAll(folder.resolve("site"), brokerPort, bacnetPort);
        startBroker();
        startBridge(site);
        // The slow settings are read once a minute at the latest; until then the way over MQTT differs.
        Awaitility.await().atMost(LONGEST).pollInterval(Duration.ofSeconds(2)).untilAsserted(() -> {
            String said = compare(site);
            Matcher summary = SUMMARY.matcher(said);
            assertThat(summary.find()).as(said).isTrue();
            assertThat(summary.group(3)).as(said).isEqualTo("0");
            assertThat(Long.parseLong(summary.group(1))).as(said).isEqualTo(readPoints(site) + COUNTS);
            assertThat(Long.parseLong(summary.group(2))).as(said).isEqualTo(boundPoints(site));
        });
    }

    private String compare(Path site) throws IOException {
        Path log = Files.createTempFile(folder, "compared", "");
        try (Program script = Program.start(
                log,
                List.of(
                        "python3",
                        OutsideProgram.file("three-ways.py").toString(),
                        site.toString(),
                        Integer.toString(frozen.plant.secondDoorPort()),
                        Integer.toString(brokerPort),
                        Integer.toString(bacnetPort),
                        Integer.toString(FreePorts.udp())))) {
            script.awaitEnd();
            return script.said();
        }
    }

    private static long readPoints(Path site) throws IOException {
        return rows(site.resolve("points"))
                .filter(row -> !row.contains(",reserved:"))
                .count();
    }

    private static long boundPoints(Path site) throws IOException {
        try (Stream<String> rows = Files.lines(site.resolve("bindings.csv"))) {
            return rows.skip(1).count();
        }
    }

    private static Stream<String> rows(Path points) throws IOException {
        try (Stream<Path> lists = Files.list(points)) {
            Stream<String> rows = Stream.of();
            for (Path list : lists.toList()) {
                rows = Stream.concat(rows, Files.readAllLines(list).stream().skip(1));
            }
            return rows;
        }
    }

    private void startBroker() throws IOException {
        Path settings = Files.writeString(
                folder.resolve("mosquitto.conf"),
                "listener " + brokerPort + " 127.0.0.1\nallow_anonymous true\npersistence false\nuser "
                        + System.getProperty("user.name") + "\n");
        broker = Program.start(folder.resolve("broker.log"), List.of("mosquitto", "-c", settings.toString()));
    }

    private void startBridge(Path site) {
        bridge = Program.start(
                folder.resolve("bridge.log"),
                PackagedProgram.command(
                        "run",
                        site.toString(),
                        "--state",
                        folder.resolve("state").toString()));
    }
}
