package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** One program at a time talks to a site's lines, whatever was started before and however it ended. */
class OneMasterIT {
    private static final int COULD_NOT_REACH = 3;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Rig rig;

    @BeforeAll
    static void require() {
        Rig.requireDevice();
    }

    @BeforeEach
    void start() {
        rig = new Rig(folder);
        rig.startDevice();
    }

    @AfterEach
    void end() {
        rig.close();
    }

    private static ConditionFactory eventually() {
        return Awaitility.await().atMost(Duration.ofSeconds(40)).pollInterval(Duration.ofMillis(100));
    }

    private Path socket() {
        return rig.file("state").resolve("control").resolve("socket");
    }

    private Program runningBridge() {
        Program bridge = rig.startBridge();
        eventually().until(() -> bridge.said().contains("controller boiler-1: answers"));
        return bridge;
    }

    /** What a command said, once it has ended with an exit code. */
    private String said(Program program, int exitCode) {
        try (program) {
            assertThat(program.awaitEnd()).as(program.said()).isEqualTo(exitCode);
            return program.said();
        }
    }

    @Test
    void theSecondBridgeIsToldWhoTheFirstIs() {
        Program first = runningBridge();
        assertThat(said(rig.command("second", "run"), COULD_NOT_REACH))
                .contains("The bridge was not started: 'burner-bridge run' (process " + first.pid() + ", since 20")
                .contains(rig.file("site").toString())
                .doesNotContain("Exception");
        assertThat(first.isAlive()).isTrue();
    }

    @Test
    void valuesComeFromTheRunningBridge() throws IOException {
        Program bridge = runningBridge();
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(socket())))
                .isEqualTo("rw-------");
        String said = said(rig.command("values", "values", "--json"), 1);
        assertThat(said).contains("site quillmere, from the running bridge, process " + bridge.pid());
        JsonNode points =
                new ObjectMapper().readTree(said.substring(said.indexOf('{'))).path("points");
        assertThat(points).hasSize(FieldPoints.ALL.size() + 1);
        // -100 tenths and 123.456 as IEEE 754 were put into the device; 500 is no register of it.
        assertThat(point(points, "water-temperature").path("value").decimalValue())
                .isEqualByComparingTo("-10.0");
        assertThat(point(points, "water-temperature").path("raw").asString()).isEqualTo("FF9C");
        assertThat(point(points, "oxygen").path("raw").asString()).isEqualTo("42F6 E979");
        assertThat(point(points, "phase").path("text").asString()).isEqualTo("ignition");
        assertThat(point(points, "nowhere").path("reason").asString()).isEqualTo("refused");
    }

    private static JsonNode point(JsonNode points, String name) {
        for (JsonNode point : points) {
            if (point.path("point").asString().equals(name)) {
                return point;
            }
        }
        throw new AssertionError("no " + name + " in " + points);
    }

    @Test
    void withoutABridgeValuesReadsTheLinesItself() {
        String said = said(rig.command("values", "values", "--once", "boiler-1.starts", "*.flame"), 0);
        assertThat(said)
                .contains("no bridge runs here; read from the lines directly")
                .containsPattern("boiler-1 +starts +FFFF +65535 +good")
                .containsPattern("boiler-1 +flame +0001 +on +good")
                .contains("2 points: 2 good, 0 uncertain")
                .doesNotContain("Exception");
        assertThat(socket()).doesNotExist();
    }

    @Test
    void thePlanIsThatOfTheRunningBridge() throws IOException {
        Program bridge = runningBridge();
        String said = said(rig.command("plan", "values", "--plan", "--json"), 1);
        assertThat(said).contains("site quillmere, from the running bridge, process " + bridge.pid());
        JsonNode plan =
                new ObjectMapper().readTree(said.substring(said.indexOf('{'))).path("plan");
        assertThat(plan.get(0).path("predictedLoad").asDouble()).isBetween(0.0, 1.0);
        assertThat(plan.get(1).path("controller").asString()).isEqualTo("boiler-1");
        assertThat(plan.get(1).path("requests").asInt()).isPositive();
        assertThat(plan.get(1).path("refused").toString()).contains("nowhere");
    }

    @Test
    void withoutABridgeThePlanIsThatOfTheCommandItself() {
        assertThat(said(rig.command("plan", "values", "--plan", "--once"), 1))
                .contains("no bridge runs here; read from the lines directly")
                .containsPattern("line [a-z0-9-]+: [0-9]+ reads?, load [0-9.]+ % predicted, [0-9.]+ % measured; scan")
                .containsPattern("boiler-1 .*\\(5.0\\)")
                .contains("  refused: nowhere")
                .doesNotContain("Exception");
        assertThat(said(rig.command("csv", "values", "--plan", "--csv"), 1))
                .contains("line,controller,every-seconds,achieved-seconds,reads");
        assertThat(socket()).doesNotExist();
    }

    @Test
    void whileValuesReadsTheLinesNoBridgeIsStartedAndAfterwardsOneIs() {
        Program values = rig.onATerminal("values", "values");
        try (values) {
            eventually()
                    .until(() ->
                            values.said().contains("starts") && values.said().contains("65535"));
            assertThat(said(rig.command("refused", "run"), COULD_NOT_REACH))
                    .contains("The bridge was not started: 'burner-bridge values' (process ");
            assertThat(said(rig.command("second", "values", "--once"), COULD_NOT_REACH))
                    .contains("error: 'burner-bridge values' (process ");
        }
        eventually()
                .untilAsserted(() ->
                        assertThat(Files.readString(rig.file("state/lock"))).contains("command values"));
        eventually().until(this::aBridgeCanRun);
    }

    private boolean aBridgeCanRun() {
        Program bridge = rig.startBridge();
        eventually().until(() -> !bridge.isAlive() || bridge.said().contains("controller boiler-1: answers"));
        return bridge.isAlive();
    }

    @Test
    void onATerminalTheTableIsLiveAndAValueThatGrowsOldIsSeen() {
        Program bridge = runningBridge();
        Program values = rig.onATerminal("values", "values");
        try (values) {
            eventually().until(() -> values.said().contains("9 good"));
            assertThat(values.said()).contains("from the running bridge, process " + bridge.pid());
            rig.stopDevice();
            eventually()
                    .until(() ->
                            values.said().contains("(65535)") && values.said().contains("stale line-down"));
            bridge.end();
            eventually().until(() -> !values.isAlive());
            assertThat(values.said())
                    .contains("error: ")
                    .contains("the running bridge")
                    .doesNotContain("Exception");
        }
    }

    @Test
    void aBridgeThatWasKilledLeavesNothingInTheWayOfTheNext() {
        runningBridge().cut();
        assertThat(socket()).exists();
        Program values = rig.command("values", "values", "--once", "boiler-1.starts");
        assertThat(said(values, 0)).contains("no bridge runs here");
        Program next = rig.command("next", "run");
        try (next) {
            eventually().until(() -> next.said().contains("controller boiler-1: answers"));
            assertThat(next.said().lines().filter(line -> line.contains("WARN") && !line.contains("mqtt")))
                    .allMatch(line -> line.contains("nowhere"));
            assertThat(said(rig.command("values", "values", "--once", "*.starts"), 0))
                    .contains("from the running bridge, process " + next.pid());
            assertThat(next.end()).isZero();
            assertThat(socket()).doesNotExist();
        }
    }

    @Test
    void aBridgeThatIsEndedTakesItsSocketAway() {
        Program bridge = runningBridge();
        assertThat(socket()).exists();
        assertThat(bridge.end()).isZero();
        assertThat(socket()).doesNotExist();
    }

    @Test
    void nothingIsEverWrittenIntoTheSiteFolder() throws IOException {
        String before = listing();
        Program bridge = runningBridge();
        said(rig.command("values", "values", "--once"), 1);
        bridge.end();
        assertThat(listing()).isEqualTo(before);
    }

    private String listing() throws IOException {
        StringBuilder listing = new StringBuilder();
        try (var walk = Files.walk(rig.file("site"))) {
            for (Path path : walk.sorted().toList()) {
                listing.append(path)
                        .append(' ')
                        .append(Files.getLastModifiedTime(path))
                        .append('\n');
            }
        }
        return listing.toString();
    }
}
