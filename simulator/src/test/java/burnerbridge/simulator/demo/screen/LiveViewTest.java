package burnerbridge.simulator.demo.screen;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.demo.feed.Published;
import burnerbridge.simulator.demo.feed.TopicWatch;
import burnerbridge.simulator.plant.Blueprints;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.Phase;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LiveViewTest {
    private static final Instant NOW = Instant.parse("2026-11-25T08:00:02Z");
    private static final String ESCAPE = "\u001b[";
    private static final String KEYS = "keys: 1 2 3 boiler, c cable, q end";

    private final FakeScene scene = new FakeScene();
    private final LiveView view = new LiveView(KEYS);
    private final ByteArrayOutputStream written = new ByteArrayOutputStream();
    private final PrintStream out = new PrintStream(written, true, StandardCharsets.UTF_8);

    @ParameterizedTest
    @CsvSource({"80, 24", "60, 20", "132, 50", "40, 12"})
    void itKeepsWithinTheTerminal(int columns, int rows) {
        Size size = new Size(columns, rows);
        scene.told = "A sentence that is long enough to be broken, ".repeat(4);
        for (PlantRow row : PlantRow.of(scene.state("boiler-1"))) {
            scene.put("boiler-1", row.point(), "a value that is much too long for its column", "uncertain", "");
        }
        for (int steps = 0; steps < 2000; steps++) {
            scene.step();
            assertThat(view.lines(scene, size)).hasSizeLessThan(rows);
        }
        scene.lockOut("boiler-1");
        assertThat(view.lines(scene, size)).hasSizeLessThan(rows);
    }

    @Test
    void atTheUsualSizesNothingIsCutOff() {
        for (Size size : List.of(Size.USUAL, new Size(60, 20))) {
            for (int steps = 0; steps < 2000; steps++) {
                scene.step();
                assertThat(view.lines(scene, size))
                        .allMatch(line -> line.text().stripTrailing().length() < size.columns());
            }
        }
    }

    @Test
    void aPointStandsBesideThePlantsOwnValue() {
        scene.put("boiler-1", "phase", "pre-purge", "good", "");

        assertThat(line("phase")).containsSubsequence("phase", "standby", "pre-purge", "good", "2.0 s");
    }

    @Test
    void beforeItsFirstMessageAPointIsADash() {
        assertThat(line("oxygen").split("\\s+")).containsExactly("oxygen", "20.90", "-", "not", "yet", "-");
    }

    @Test
    void aLostValueStandsInBracketsWithTheReason() {
        scene.messages.put("boiler-1/oxygen", new Published("", "3.4", "%", "stale", "no-reply", Optional.of(NOW)));

        assertThat(line("oxygen")).contains("(3.4)", "no-reply");
    }

    @Test
    void theBarFollowsATimedPhaseAndThenTheFire() {
        scene.stepTo("boiler-1", Phase.PRE_PURGE, 6);
        assertThat(boilerLine(1)).startsWith(">1 boiler-1").contains("pre-purge", "[######......] 6 of 12 s");

        scene.stepTo("boiler-1", Phase.MODULATION, 25);
        assertThat(boilerLine(1)).contains("modulation", "[############] 100 %");
    }

    @Test
    void aLockoutShowsItsCause() {
        scene.lockOut("boiler-1");

        assertThat(boilerLine(1)).contains("lockout", "flame lost");
    }

    @Test
    void aControllerThatDoesNotAnswerIsTold() {
        scene.put("boiler-2", "phase", "standby", "good", "");
        assertThat(boilerLine(2)).contains("1/1 good");

        scene.links.put("boiler-2", "down");

        assertThat(boilerLine(2)).contains("no answer");
    }

    @Test
    void theChosenBoilerIsShown() {
        scene.chosen = "steam-1";

        assertThat(boilerLine(3)).startsWith(">3 steam-1");
        assertThat(line("steam-pressure")).contains("7.3");
        assertThat(view.lines(scene, Size.USUAL)).noneMatch(l -> l.text().startsWith("boiler-temperature"));
    }

    @Test
    void coloursAreWrittenOnlyWhereTheyAreShown() {
        scene.put("boiler-1", "phase", "standby", "good", "");

        try (Screen plain = new RedrawnScreen(out, view, () -> Size.USUAL, false)) {
            plain.show(scene);
        }
        assertThat(written()).doesNotContain(ESCAPE + "32m");
        try (Screen painted = new RedrawnScreen(out, view, () -> Size.USUAL, true)) {
            painted.show(scene);
        }
        assertThat(written()).contains(ESCAPE + "32m");
    }

    @Test
    void aTerminalIsDrawnOverAndItsCursorComesBack() {
        Screen screen = new RedrawnScreen(out, view, () -> Size.USUAL, false);
        screen.show(scene);
        screen.show(scene);
        screen.close();
        screen.close();

        int up = view.lines(scene, Size.USUAL).size() - 1;
        assertThat(written())
                .containsOnlyOnce(ESCAPE + "?25l")
                .containsOnlyOnce("\r" + ESCAPE + up + "A")
                .containsOnlyOnce(ESCAPE + "?25h");
    }

    @Test
    void elsewhereEachChangeOfPhaseIsALine() {
        try (Screen screen = new EventLog(out)) {
            while (scene.state("boiler-1").phase() != Phase.MODULATION) {
                screen.show(scene);
                scene.step("boiler-1");
            }
        }

        assertThat(written().lines().filter(l -> l.contains(" boiler-1: ")).toList())
                .hasSize(6)
                .satisfies(lines -> assertThat(lines.get(1)).contains("plant pre-purge", "nothing yet"));
        assertThat(written())
                .contains("at the end over MQTT: boiler-1, 0 of 0 points good")
                .doesNotContain(ESCAPE);
    }

    @Test
    void elsewhereTheFirstGoodValueOfABoilerIsALine() {
        try (Screen screen = new EventLog(out)) {
            screen.show(scene);
            assertThat(written()).doesNotContain("first good value");
            scene.put("boiler-2", "phase", "standby", "good", "");
            screen.show(scene);
            screen.show(scene);
        }

        assertThat(written())
                .containsOnlyOnce("first good value over MQTT: boiler-2")
                .doesNotContain("MQTT: boiler-1\n");
    }

    @ParameterizedTest
    @CsvSource({"24 80, 80, 24", "20 60, 60, 20", "0 0, 80, 24", "'', 100, 30", "3 3, 80, 24"})
    void aSizeIsThatOfTheTerminalOrOfTheEnvironment(String told, int columns, int rows) {
        Map<String, String> environment =
                told.isEmpty() ? Map.of("COLUMNS", "100", "LINES", "30") : Map.<String, String>of();
        Size expected = told.equals("3 3") ? new Size(40, 12) : new Size(columns, rows);

        assertThat(Size.of(told, environment)).isEqualTo(expected);
    }

    private String boilerLine(int number) {
        return view.lines(scene, Size.USUAL).get(number).text();
    }

    private String line(String point) {
        return view.lines(scene, Size.USUAL).stream()
                .map(Line::text)
                .filter(l -> l.startsWith(point + " "))
                .findFirst()
                .orElseThrow();
    }

    private String written() {
        return written.toString(StandardCharsets.UTF_8);
    }

    private static final class FakeScene implements Scene {
        final Map<String, Published> messages = new HashMap<>();
        final Map<String, String> links = new HashMap<>();
        final Map<String, Boiler> boilers = Map.of(
                "boiler-1", new Boiler(Blueprints.boiler1(), 4, NOW),
                "boiler-2", new Boiler(Blueprints.boiler2(), 5, NOW),
                "steam-1", new Boiler(Blueprints.steam1(), 6, NOW));
        String chosen = "boiler-1";
        String told = "";

        void put(String controller, String point, String value, String quality, String reason) {
            messages.put(
                    controller + "/" + point,
                    new Published(value, "", "", quality, reason, Optional.of(NOW.minusSeconds(2))));
        }

        void step() {
            controllers().forEach(this::step);
        }

        void step(String name) {
            boiler(name).step();
        }

        void stepTo(String name, Phase phase, int seconds) {
            while (state(name).phase() != phase || state(name).inPhase().toSeconds() < seconds) {
                step(name);
            }
        }

        void lockOut(String name) {
            stepTo(name, Phase.MODULATION, 5);
            boiler(name).failFlame();
            stepTo(name, Phase.LOCKOUT, 0);
        }

        private Boiler boiler(String name) {
            return Optional.ofNullable(boilers.get(name)).orElseThrow();
        }

        @Override
        public Instant now() {
            return NOW;
        }

        @Override
        public List<String> controllers() {
            return List.of("boiler-1", "boiler-2", "steam-1");
        }

        @Override
        public String chosen() {
            return chosen;
        }

        @Override
        public BoilerState state(String controller) {
            return boiler(controller).state();
        }

        @Override
        public Optional<Published> published(String controller, String point) {
            return Optional.ofNullable(messages.get(controller + "/" + point));
        }

        @Override
        public TopicWatch.Tally tally(String controller) {
            int all = (int) messages.keySet().stream()
                    .filter(k -> k.startsWith(controller + "/"))
                    .count();
            return new TopicWatch.Tally(all, all);
        }

        @Override
        public String link(String controller) {
            return links.getOrDefault(controller, "");
        }

        @Override
        public boolean isCableOut(String controller) {
            return false;
        }

        @Override
        public boolean isBrokerRunning() {
            return true;
        }

        @Override
        public boolean isFrozen() {
            return false;
        }

        @Override
        public String told() {
            return told;
        }
    }
}
