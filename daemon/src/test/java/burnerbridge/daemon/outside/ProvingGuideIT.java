package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.daemon.outside.GuidePage.Block;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/**
 * The guide {@code docs/proving.md}, followed to the letter beside the demo: what each command prints has the form that
 * the guide shows, and while the plant stands still its own screen, the bridge, BACnet and MQTT say the same.
 */
class ProvingGuideIT {
    private static final int MOST_TRIES = 10;
    /** A burner goes through its whole sequence meanwhile, or waits for the water to cool. */
    private static final Duration LONG = Duration.ofMinutes(5);

    private static final Path CHECKOUT = Path.of("..").toAbsolutePath().normalize();
    private static final List<String> LINKED =
            List.of("bacnet-adapter", "bridge-core", "config", "daemon", "mqtt-adapter", "outside", "simulator");
    private static final Pattern SCREEN_ROW =
            Pattern.compile("(\\S+) +(-?\\d+(?:\\.\\d+)?) +(-?\\d+(?:\\.\\d+)?) .*good.*");
    /** As the example site binds them. */
    private static final Map<String, String> OBJECTS = Map.of(
            "firing-rate", "0:1005",
            "boiler-temperature", "0:1006",
            "oxygen", "0:1007",
            "flue-temperature", "0:1008");

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private @Nullable DemoTerminal demo;
    private @Nullable CommandShell shell;
    private @Nullable Block lastScreen;
    private List<String> lastTyped = List.of();
    private List<String> seen = List.of();
    private int compared;

    @BeforeEach
    void require() {
        OutsideProgram.require("script", "bsdutils");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.requireBacnetClient();
    }

    @AfterEach
    void end() {
        if (shell != null) {
            shell.close();
        }
        if (demo != null) {
            demo.close();
        }
    }

    @Test
    void whoFollowsTheGuideSeesWhatItSaysAndAllSidesAgree() throws Exception {
        for (Block block : new GuidePage("proving.md").blocks()) {
            follow(block);
        }

        assertThat(compared).isGreaterThan(20);
    }

    /** The first with the demo, of which the key that the page names starts the live view; the second for commands. */
    private void openTerminals() throws IOException {
        Path home = checkout();
        Map<String, String> environment = environment(home);
        demo = new DemoTerminal(folder.resolve("demo.log"), home, environment);
        demo.press("\n");
        shell = new CommandShell(folder, home, environment);
    }

    /** The folder of the program as its user has it, with the launcher in it and what the build has made. */
    private Path checkout() throws IOException {
        Path home = Files.createDirectories(folder.resolve("program"));
        for (String file : List.of("burner-bridge", "pom.xml")) {
            Files.copy(CHECKOUT.resolve(file), home.resolve(file), StandardCopyOption.COPY_ATTRIBUTES);
        }
        for (String name : LINKED) {
            Files.createSymbolicLink(home.resolve(name), CHECKOUT.resolve(name));
        }
        for (String module : List.of("daemon", "simulator")) {
            assertThat(home.resolve(module).resolve("target/package/lib"))
                    .as("the packaged program; integration tests run after it is made")
                    .isDirectory();
        }
        Files.createDirectories(home.resolve("target"));
        Files.createFile(home.resolve("target/launcher-built"));
        return home;
    }

    private static Map<String, String> environment(Path home) {
        Map<String, String> environment = new HashMap<>();
        environment.put("HOME", home.resolveSibling("home").toString());
        environment.put("JAVA_HOME", System.getProperty("java.home"));
        return environment;
    }

    private void follow(Block block) throws Exception {
        switch (block.kind()) {
            case "keys" -> press(block);
            case "screen" -> lookAtScreen(block);
            case "sh" -> type(block);
            case "text" -> see(block, this::seenOrTypedAgain, Shape::of);
            default -> throw new IllegalArgumentException("nobody knows how to follow " + block.kind());
        }
    }

    private void lookAtScreen(Block block) {
        see(block, () -> demo().screen(), Shape::ofScreen);
        lastScreen = block;
    }

    private void press(Block keys) {
        keys.lines().forEach(line -> demo().press(line.substring(0, 1)));
        if (keys.first().endsWith("the plant stands still")) {
            for (int tries = 0; !standsAsSeen(); tries++) {
                assertThat(tries).as("times that it went on before the key").isLessThan(MOST_TRIES);
                demo().press("z");
                lookAtScreen(Objects.requireNonNull(lastScreen));
                demo().press("z");
            }
        }
    }

    /** Whether the plant was still what the screen had shown, when the key came. */
    private boolean standsAsSeen() {
        Awaitility.await()
                .atMost(LONG)
                .until(() -> demo().screen().stream().anyMatch(line -> line.endsWith("| the plant stands still")));
        String phase = Objects.requireNonNull(lastScreen).first().split(" +")[1];
        return demo().screen().stream()
                .anyMatch(line -> line.startsWith("phase ") && line.split(" +")[1].equals(phase));
    }

    private void type(Block block) throws IOException {
        if (block.isByHand()) {
            return;
        }
        if (block.first().equals("./burner-bridge demo")) {
            openTerminals();
            return;
        }
        lastTyped = block.lines().stream().map(this::here).toList();
        seen = shell().run(lastTyped);
    }

    /** On the ports that the demo found free, with a port for the client that is. */
    private String here(String line) {
        return line.replace("/tmp/burner-bridge-demo-19762", demo().told("its log +(\\S+)/bridge.log"))
                .replace("127.0.0.1:47808", "127.0.0.1:" + demo().told("BACnet/IP +(\\d+)"))
                .replace("-p 1883", "-p " + demo().told("an MQTT broker +TCP +(\\d+)"))
                .replace(" 47900 ", " " + FreePorts.udp() + " ");
    }

    /** Whoever does not see it yet looks again. */
    private void see(Block block, Supplier<List<String>> look, UnaryOperator<String> shape) {
        List<String> expected = block.lines().stream().map(shape).toList();
        Awaitility.await()
                .pollInSameThread()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(200))
                .atMost(LONG)
                .untilAsserted(() -> assertThat(look.get().stream().map(shape).toList())
                        .as("after %s", lastTyped)
                        .containsSubsequence(expected));
        compared++;
        if (block.kind().equals("screen") && block.lines().size() > 1) {
            allSidesSayWhatThePlantHas();
        }
    }

    private List<String> seenOrTypedAgain() {
        List<String> before = seen;
        seen = List.of();
        return before.isEmpty() ? typedAgain() : before;
    }

    private List<String> typedAgain() {
        try {
            return shell().run(lastTyped);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The rows of the demo's screen against the bridge, the broker and the BACnet device, each read on its own. */
    private void allSidesSayWhatThePlantHas() {
        Awaitility.await()
                .pollInSameThread()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(500))
                .atMost(LONG)
                .untilAsserted(() -> {
                    Map<String, String> plant = column(2);
                    assertThat(plant).hasSizeGreaterThan(10);
                    assertAgree("over MQTT", plant, column(3));
                    assertAgree("the bridge", plant, bridge());
                    plant.keySet().retainAll(OBJECTS.keySet());
                    assertAgree("BACnet", plant, bacnet());
                });
    }

    /** Within a step of each that shows it. */
    private static void assertAgree(String side, Map<String, String> plant, Map<String, String> other) {
        plant.forEach((point, text) -> {
            BigDecimal value = new BigDecimal(text);
            BigDecimal said = new BigDecimal(String.valueOf(other.get(point))).stripTrailingZeros();
            double step = Math.pow(10, -value.scale()) + Math.pow(10, -Math.max(0, Math.min(3, said.scale())));
            assertThat(said.doubleValue()).as(side + ": " + point).isCloseTo(value.doubleValue(), within(0.51 * step));
        });
    }

    /** Numbers of the demo's screen: what the plant has (2) or what came over MQTT (3). */
    private Map<String, String> column(int group) {
        Map<String, String> column = new TreeMap<>();
        for (String line : demo().screen()) {
            Matcher row = SCREEN_ROW.matcher(line);
            if (row.matches()) {
                column.put(row.group(1), row.group(group));
            }
        }
        return column;
    }

    private Map<String, String> bridge() throws IOException {
        Map<String, String> values = new TreeMap<>();
        for (String line : shell().run(List.of("./burner-bridge values $SITE --once --csv boiler-1"))) {
            String[] cells = line.split(",", -1);
            if (cells[0].equals("boiler-1")) {
                values.put(cells[1], cells[6]);
            }
        }
        return values;
    }

    private Map<String, String> bacnet() throws IOException {
        String objects = String.join(",", OBJECTS.values());
        String said = String.join(
                "", shell().run(List.of(here("node outside/bacnet-client.js $DEVICE 47900 read " + objects + " 85"))));
        JsonNode answer = JSON.readTree(said);
        Map<String, String> values = new TreeMap<>();
        OBJECTS.forEach((point, object) ->
                values.put(point, answer.path(object + ":85").path(0).asString()));
        return values;
    }

    private DemoTerminal demo() {
        return Objects.requireNonNull(demo);
    }

    private CommandShell shell() {
        return Objects.requireNonNull(shell);
    }
}
