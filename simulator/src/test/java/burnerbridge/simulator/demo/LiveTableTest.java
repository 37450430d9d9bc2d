package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.ExampleSite;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Phase;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class LiveTableTest {
    private static final Instant NOW = Instant.parse("2026-11-25T08:00:02Z");
    private static final String ESCAPE = "\u001b[";

    private final Map<String, Published> messages = new HashMap<>();
    private final Burner burner = new Burner(BurnerSettings.brisk(), 4);
    private final ByteArrayOutputStream written = new ByteArrayOutputStream();
    private final PrintStream out = new PrintStream(written, true, StandardCharsets.UTF_8);

    @Test
    void itShowsTheVeryPointsOfTheList() throws IOException {
        assertThat(PlantRow.hotWater())
                .extracting(PlantRow::point)
                .containsExactlyElementsOf(ExampleSite.pointRows().stream()
                        .map(row -> row.getOrDefault("name", ""))
                        .toList());
    }

    @Test
    void itKeepsWithin24LinesOf79Columns() {
        for (PlantRow row : PlantRow.hotWater()) {
            put(row.point(), "a value that is much too long for its column", "uncertain");
        }

        for (int steps = 0; steps < 2000; steps++) {
            burner.step();
            assertThat(lines()).hasSize(24).allMatch(line -> line.length() <= 79, "at most 79 columns");
        }
    }

    @Test
    void aPointStandsBesideThePlantsOwnValue() {
        put("phase", "pre-purge", "good");

        assertThat(line("phase")).containsSubsequence("phase", "standby", "pre-purge", "good", "2.0 s");
    }

    @Test
    void beforeItsFirstMessageAPointIsADash() {
        assertThat(line("oxygen").split("\\s+")).containsExactly("oxygen", "20.90", "-", "-", "-");
    }

    @Test
    void aLostValueStandsInBrackets() {
        messages.put("oxygen", new Published("", "3.4", "%", "stale", Optional.of(NOW)));

        assertThat(line("oxygen")).contains("(3.4)").contains("stale");
    }

    @Test
    void theBarFollowsATimedPhase() {
        stepTo(Phase.PRE_PURGE, 6);

        assertThat(lines().get(0)).startsWith("pre-purge").contains("[############............] 6 of 12 s");
    }

    @Test
    void aPhaseWithoutASetEndHasNoBar() {
        stepTo(Phase.FIRING, 3);

        assertThat(lines().get(0)).startsWith("firing").contains("for 3 s").doesNotContain("[");
    }

    @Test
    void goodPointsAreCounted() {
        put("phase", "standby", "good");
        put("oxygen", "20.9", "stale");

        assertThat(table(false).goodPoints()).isEqualTo("1 of 21 good");
    }

    @Test
    void coloursAreWrittenOnlyWhereTheyAreShown() {
        put("phase", "standby", "good");

        assertThat(String.join("", lines())).doesNotContain(ESCAPE);
        assertThat(String.join("", table(true).lines(burner.state(), NOW))).contains(ESCAPE + "32m");
    }

    @Test
    void aTerminalIsDrawnOverAndItsCursorComesBack() {
        Screen screen = new RedrawnScreen(out, table(false));
        screen.show(burner.state(), NOW);
        screen.show(burner.state(), NOW);
        screen.close();
        screen.close();

        assertThat(written())
                .containsOnlyOnce(ESCAPE + "?25l")
                .containsOnlyOnce("\r" + ESCAPE + "23A")
                .containsOnlyOnce(ESCAPE + "?25h");
        assertThat(written().indexOf(ESCAPE + "?25h")).isGreaterThan(written().indexOf(ESCAPE + "23A"));
    }

    @Test
    void elsewhereEachChangeOfPhaseIsALine() {
        try (Screen screen = new PhaseLog(out, table(false), name -> Optional.ofNullable(messages.get(name)))) {
            while (burner.state().phase() != Phase.FIRING) {
                screen.show(burner.state(), NOW);
                burner.step();
            }
        }

        assertThat(written().lines().toList())
                .hasSize(5)
                .satisfies(lines -> assertThat(lines.get(1)).contains("plant: pre-purge", "nothing yet"))
                .satisfies(lines -> assertThat(lines.get(4)).contains("0 of 21 good"));
        assertThat(written()).doesNotContain(ESCAPE);
    }

    private void stepTo(Phase phase, int seconds) {
        BurnerState state = burner.state();
        while (state.phase() != phase || state.inPhase().toSeconds() < seconds) {
            burner.step();
            state = burner.state();
        }
    }

    private void put(String point, String value, String quality) {
        messages.put(point, new Published(value, "", "", quality, Optional.of(NOW.minusSeconds(2))));
    }

    private String line(String point) {
        return lines().stream()
                .filter(l -> l.startsWith(point + " "))
                .reduce((first, last) -> last)
                .orElseThrow();
    }

    private List<String> lines() {
        return table(false).lines(burner.state(), NOW);
    }

    private LiveTable table(boolean colours) {
        return new LiveTable(
                PlantRow.hotWater(), name -> Optional.ofNullable(messages.get(name)), "the end", new Ink(colours));
    }

    private String written() {
        return written.toString(StandardCharsets.UTF_8);
    }
}
