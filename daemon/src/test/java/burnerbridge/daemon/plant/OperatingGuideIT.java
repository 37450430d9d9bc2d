package burnerbridge.daemon.plant;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.box.PackedArchive;
import burnerbridge.daemon.outside.FreePorts;
import burnerbridge.daemon.outside.GuidePage;
import burnerbridge.daemon.outside.GuidePage.Block;
import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code docs/operating.md}, followed to the letter with the archive that the build has made, on the example site, but
 * for the blocks that say that they are for hands. The box is a folder, and its administrator whoever runs the test.
 */
class OperatingGuideIT {
    private static final Duration LONGEST = Duration.ofMinutes(3);
    /** What no block may touch outside the folder. */
    private static final Pattern OF_THE_MACHINE = Pattern.compile("(?<![\\w./])/(etc|opt|var|usr|root|home)\\b");

    /** The figure as it stands; the signs around it are those of the terminal. */
    private static final Pattern EXPOSURE = Pattern.compile("Overall exposure level for \\S+: [0-9.]+ [A-Z]+");

    private final int brokerPort = FreePorts.tcp();
    private final int bacnetPort = FreePorts.udp();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path box;

    @SuppressWarnings("NullAway.Init")
    private FrozenPlant frozen;

    private @Nullable Program broker;
    private @Nullable Program bridge;

    /** What the last block printed. */
    private List<String> seen = List.of();

    @BeforeEach
    void start() throws IOException {
        OutsideProgram.require("mosquitto", "mosquitto");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("systemd-analyze", "systemd");
        OutsideProgram.require("ss", "iproute2");
        frozen = new FrozenPlant();
        frozen.firingAndLockedOut();
        frozen.siteForAll(box.resolve("quillmere"), brokerPort, bacnetPort);
        Files.createDirectories(box.resolve("usr/local/bin"));
        Files.createDirectories(box.resolve("etc/systemd/system"));
        startBroker();
    }

    @AfterEach
    void end() {
        for (Program program : new Program[] {bridge, broker}) {
            if (program != null) {
                program.close();
            }
        }
        frozen.close();
    }

    private void startBroker() {
        broker = Program.start(box.resolve("broker.log"), List.of("mosquitto", "-p", Integer.toString(brokerPort)));
        Awaitility.await().atMost(LONGEST).ignoreExceptions().until(() -> {
            new Socket(InetAddress.getLoopbackAddress(), brokerPort).close();
            return true;
        });
    }

    @Test
    void whoFollowsTheGuideSeesWhatItSaysAndTheBridgeEndsWhenAsked() throws Exception {
        int followed = 0;
        int forHands = 0;
        for (Block block : new GuidePage("operating.md").blocks()) {
            if (block.isByHand()) {
                forHands++;
            } else {
                follow(block);
                followed++;
            }
        }
        assertThat(forHands).isLessThan(followed / 3);
        assertThat(bridge).as("the page has the bridge run").isNotNull();
        Program running = Objects.requireNonNull(bridge);
        assertThat(running.isAlive()).as(running.said()).isTrue();
        assertThat(running.end()).as(running.said()).isZero();
        assertThat(running.said().lines().toList()).last().asString().endsWith("ended");
    }

    private void follow(Block block) throws IOException {
        switch (block.kind()) {
            case "sh" -> type(here(String.join("\n", block.lines())));
            case "text" -> compare(block);
            default -> throw new IllegalArgumentException("nobody knows how to follow " + block.kind());
        }
    }

    private void type(String script) throws IOException {
        assertThat(OF_THE_MACHINE
                        .matcher(script.replace(box.toString(), "here"))
                        .find())
                .as("only in the test's folder: " + script)
                .isFalse();
        if (script.startsWith("burner-bridge run ") && !script.contains(";")) {
            bridge = shell(box.resolve("bridge.log"), "exec " + script);
            return;
        }
        Path log = box.resolve("said");
        Files.deleteIfExists(log);
        try (Program program = shell(log, script)) {
            int code = program.awaitEnd();
            seen = program.said().lines().toList();
            assertThat(code).as(script + "\n" + program.said()).isZero();
        }
        assertAsTold(script);
        if (!Files.exists(box.resolve("burner-bridge-0.2.0.tar.gz"))) {
            Files.copy(box.resolve("burner-bridge-0.1.0.tar.gz"), box.resolve("burner-bridge-0.2.0.tar.gz"));
        }
        for (String version : List.of("0.1.0", "0.2.0")) {
            Path unit = box.resolve("opt/burner-bridge/" + version + "/service/burner-bridge.service");
            if (Files.exists(unit)) {
                Files.writeString(unit, here(Files.readString(unit)));
            }
        }
    }

    /** Typed in the folder in which the archive and the site lie, with the box's commands before those of the machine. */
    private Program shell(Path log, String script) {
        String path = box.resolve("usr/local/bin") + ":" + Path.of(System.getProperty("java.home"), "bin") + ":"
                + System.getenv("PATH");
        String strict = script.contains("exit code $?") ? "" : "set -e; ";
        String typed = strict + "set -o pipefail; cd " + box + "\n" + script;
        String state = "STATE_DIRECTORY=" + box.resolve("var/lib/burner-bridge");
        return Program.start(log, List.of("env", "PATH=" + path, state, "bash", "-c", typed));
    }

    /** What the page says in words of two of its commands. */
    private void assertAsTold(String script) {
        if (script.startsWith("ss ")) {
            assertThat(seen).isNotEmpty().allSatisfy(line -> assertThat(line).startsWith("udp "));
        }
        if (script.contains("systemd-analyze verify ")) {
            assertThat(seen).noneMatch(line -> line.contains("burner-bridge.service"));
        }
    }

    private void compare(Block block) {
        List<String> wanted = block.lines().stream()
                .map(this::here)
                .map(OperatingGuideIT::shape)
                .toList();
        Program running = bridge;
        if (running != null && block.first().contains(" INFO ")) {
            Awaitility.await()
                    .atMost(LONGEST)
                    .untilAsserted(() ->
                            assertThat(shapes(running.said().lines().toList())).containsAll(wanted));
        } else {
            assertThat(shapes(seen)).containsSubsequence(wanted);
        }
    }

    private static List<String> shapes(List<String> lines) {
        return lines.stream().map(OperatingGuideIT::shape).toList();
    }

    /** The line without what is another each time; exit codes, counts of errors and versions are not. */
    private static String shape(String line) {
        String plain = line.strip().replaceAll("\\s+", " ");
        Matcher exposure = EXPOSURE.matcher(plain);
        if (exposure.find()) {
            return exposure.group();
        }
        if (plain.startsWith("exit code ") || plain.endsWith(" warnings.") || plain.startsWith("burner-bridge 0.")) {
            return plain;
        }
        return plain.replaceAll("\\d{4}-\\d\\d-\\d\\dT[0-9:.]+Z", "TIME")
                .replaceAll("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", "ID")
                .replaceAll("\\b[0-9A-F]{4}\\b", "N")
                .replaceAll("\\d+([.]\\d+)*", "N");
    }

    /** Everything in the folder, by this user, on the ports of the test. */
    private String here(String text) {
        return text.replaceAll(
                        "(?<![\\w.])/(etc/systemd/system|etc/burner-bridge|opt/burner-bridge|var/lib/burner-bridge"
                                + "|usr/local/bin)\\b",
                        Matcher.quoteReplacement(box.toString()) + "/$1")
                .replace("tar -C / ", "tar -C " + box + " ")
                .replace(
                        "daemon/target/" + PackedArchive.top(),
                        PackedArchive.file().resolveSibling(PackedArchive.top()).toString())
                .replace(" -o root -g burner-bridge", "")
                .replace(" -o burner-bridge -g burner-bridge", "")
                .replace("root:burner-bridge", "$(id -u):$(id -g)")
                .replace("runuser -u burner-bridge -- ", "")
                .replaceAll("\\b7001\\b", Integer.toString(frozen.plant.boilerHousePort()))
                .replaceAll("\\b1502\\b", Integer.toString(frozen.plant.annexPort()))
                .replaceAll("\\b1883\\b", Integer.toString(brokerPort))
                .replaceAll("\\b47808\\b", Integer.toString(bacnetPort));
    }
}
