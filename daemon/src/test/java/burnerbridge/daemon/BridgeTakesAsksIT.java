package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.simulator.controller.Quillmere;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** The whole bridge, as it runs: a person approves by the command, BACnet asks, and the plant is written. */
class BridgeTakesAsksIT {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 1 h, on-silence: write 20, reason: a test}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final StopStack started = new StopStack();
    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge");
    private final Level level = log.getLevel();

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
        WritablePlant.site(
                folder.resolve("site"),
                plant,
                PERMITS,
                "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + bacnetPort + "}");
        WholeBridge.start(folder.resolve("site"), folder.resolve("state"), started);
    }

    @Test
    void whatAPersonHasApprovedIsWrittenAndTakenBackAtTheEnd() throws Exception {
        Quillmere plant = WritablePlant.start();
        started.push(plant);
        int port = FreePorts.udp();
        startBridge(plant, port);
        try (HandMadeStation station = new HandMadeStation(port)) {
            until(() -> station.description().contains("nobody asks; not approved"));
            assertThat(station.write(60.5f)).endsWith("0f91029128");
            until(() -> WholeBridge.isApproved(folder.resolve("site"), folder.resolve("state")));
            until(() -> station.write(60.5f).startsWith("20"));
            assertThat(station.description()).contains("slot 8, bacnet 127.0.0.1:" + station.port());
            until(() -> plant.written(Quillmere.BOILER_1).size() == 1);
        }
        started.close();
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(2);
        assertThat(plant.written(Quillmere.STEAM_1)).isEmpty();
    }
}
