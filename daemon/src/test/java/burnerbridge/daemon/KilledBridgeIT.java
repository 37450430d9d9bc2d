package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.Program;
import burnerbridge.daemon.plant.PackagedProgram;
import burnerbridge.model.Seed;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.audit.AuditReport;
import burnerbridge.write.audit.AuditVerifier;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.PointMemory;
import burnerbridge.write.store.FolderDisk;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged bridge, killed again and again while it writes what a station asks for: on the wire is nothing without its
 * record, nothing that was not counted, and a demand that stood is taken back in its time when nobody asks any more.
 */
class KilledBridgeIT {
    private static final int KILLS = 6;
    private static final int MOST_ASKS = 3_000;
    private static final Duration LONGEST = Duration.ofSeconds(180);
    private static final Duration SILENCE = Duration.ofSeconds(8);
    private static final int SILENT_VALUE = 200;
    private static final PointId LIMIT = new PointId(new Name("boiler-1"), new Name("load-limit"));
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [127.0.0.1]}, range: 20..100, interval: 1 s, lifetime-writes: 1000, function: 6, silence-after: 8 s, on-silence: write 20, reason: a test}
            """;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final Random dice = new Random(Seed.value());
    private final int port = FreePorts.udp();

    @SuppressWarnings("NullAway.Init")
    private Quillmere plant;

    @SuppressWarnings("NullAway.Init")
    private Program bridge;

    @BeforeEach
    void start() throws Exception {
        plant = WritablePlant.start();
        WritablePlant.site(
                folder.resolve("site"),
                plant,
                PERMITS,
                "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + port + "}");
        startBridge();
    }

    private void startBridge() {
        bridge = Program.start(
                folder.resolve("bridge.log"),
                PackagedProgram.command(words("run").toArray(String[]::new)));
    }

    private List<String> words(String verb, String... more) {
        List<String> words = new ArrayList<>(List.of(
                verb,
                folder.resolve("site").toString(),
                "--state",
                folder.resolve("state").toString()));
        words.addAll(List.of(more));
        return words;
    }

    @AfterEach
    void end() {
        bridge.close();
        plant.close();
    }

    private void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(20))
                .atMost(LONGEST)
                .conditionEvaluationListener(condition ->
                        assertThat(bridge.isAlive()).as(bridge.said()).isTrue())
                .until(is);
    }

    private List<WrittenFrame> frames() {
        return plant.written(Quillmere.BOILER_1);
    }

    /** Unit and data unit of a frame over RTU, without its CRC. */
    private static String payload(WrittenFrame frame) {
        byte[] bytes = frame.bytes();
        return hex(Arrays.copyOf(bytes, bytes.length - 2));
    }

    private static String hex(byte[] bytes) {
        return HexFormat.of().formatHex(bytes);
    }

    private static int value(WrittenFrame frame) {
        return (frame.bytes()[4] & 0xFF) << 8 | frame.bytes()[5] & 0xFF;
    }

    private void approve() throws Exception {
        try (HandMadeStation station = new HandMadeStation(port)) {
            until(() -> !station.ask("00 04 %02X 0C 0C 00 80 04 60 19 55").isEmpty());
        }
        String said = OutsideProgram.output(PackagedProgram.command(
                words("permits", "--approve", "a person", "--wait", "60").toArray(String[]::new)));
        assertThat(said).contains("Approved");
    }

    @Test
    void aBridgeThatIsKilledAtAnyMomentHasWrittenNothingUnrecordedAndTakesBackWhatStood() throws Exception {
        approve();
        for (int kill = 0; kill < KILLS; kill++) {
            askUntilSomethingIsWritten();
            bridge.cut();
            everythingOnTheWireIsRecordedAndCounted();
            startBridge();
        }
        long startedAt = System.nanoTime();
        int before = frames().size();
        until(() -> frames().size() > before);
        List<WrittenFrame> silence = frames().subList(before, frames().size());
        assertThat(value(silence.get(0))).isEqualTo(SILENT_VALUE);
        assertThat(Duration.ofNanos(silence.get(0).nanos() - startedAt))
                .as("a demand that stood has its whole time again")
                .isGreaterThan(SILENCE);
        assertThat(bridge.end()).as(bridge.said()).isZero();
        assertThat(frames()).hasSize(before + 1);
        everythingOnTheWireIsRecordedAndCounted();
        assertThat(memory().owed()).isFalse();
    }

    private void askUntilSomethingIsWritten() throws IOException {
        int before = frames().size();
        try (HandMadeStation station = new HandMadeStation(port)) {
            until(() -> {
                station.write(40 + dice.nextInt(60));
                return frames().size() > before && value(frames().get(frames().size() - 1)) > SILENT_VALUE;
            });
            // So that the next kill comes anywhere between two writes.
            for (int more = dice.nextInt(MOST_ASKS); more > 0; more--) {
                station.write(40 + dice.nextInt(60));
            }
        }
    }

    private PointMemory memory() throws IOException {
        try (FolderDisk disk = new FolderDisk(FolderDisk.in(folder.resolve("state")))) {
            return GateMemory.open(disk, 0).of(LIMIT);
        }
    }

    /** What was recorded may not have left, but not the other way round. */
    private void everythingOnTheWireIsRecordedAndCounted() throws IOException {
        List<String> recorded = new ArrayList<>();
        try (FolderDisk disk = new FolderDisk(FolderDisk.in(folder.resolve("state")))) {
            AuditReport report = new AuditVerifier(disk).verify(record -> {
                if (record.kind().equals("intent")) {
                    recorded.add(record.details()
                            .getOrDefault("bytes", "")
                            .replace(" ", "")
                            .toLowerCase(Locale.ROOT));
                }
            });
            assertThat(report.findings()).as(bridge.said()).isEmpty();
        }
        for (WrittenFrame frame : frames()) {
            assertThat(recorded.remove(payload(frame)))
                    .as("%s is recorded, once for each time that it left; else there is %s", frame, recorded)
                    .isTrue();
        }
        assertThat(memory().spent()).isGreaterThanOrEqualTo(frames().size());
    }
}
