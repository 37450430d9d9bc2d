package burnerbridge.daemon.screen;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Quality;
import burnerbridge.scan.ScanRow;
import burnerbridge.scan.ScanSource;
import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PlanTableTest {
    private static final List<ScanRow> ROWS = List.of(
            new ScanRow.Line("annex", 9, Duration.ofMillis(1234), 0.3125, 0.3),
            row("boiler-1", Duration.ofSeconds(1), Duration.ofMillis(1004), Duration.ofNanos(20_125_000), "up"),
            row("boiler-1", Duration.ofMinutes(10), Duration.ofMinutes(11), null, "up", "nowhere", "other"),
            row("boiler-2", Duration.ofHours(3), null, null, "no-reply"),
            row("\u001b[31ma-controller-with-a-rather-long-name", Duration.ofSeconds(1), null, null, "not-asked-yet"));

    private static ScanRow row(
            String name,
            Duration every,
            @Nullable Duration achieved,
            @Nullable Duration learned,
            String link,
            String... refused) {
        return new ScanRow.Controller(
                "annex",
                name,
                every,
                4,
                Duration.ofMillis(112),
                achieved == null ? null : Duration.ofNanos(110_460_000),
                0.112,
                Duration.ofMillis(5),
                learned,
                achieved,
                7,
                123_456,
                link,
                link.equals("no-reply") ? "no reply to unit 2" : "",
                List.of(refused),
                refused.length == 0 ? 0 : refused.length + 3);
    }

    private static PlanTable table() {
        PlanTable table = new PlanTable();
        ROWS.forEach(table::make);
        return table;
    }

    private static List<String> text(PlanTable table, int width) {
        return ROWS.stream().flatMap(row -> table.text(row, width).stream()).toList();
    }

    @Test
    void columnsAreAlignedAndTroubleStandsBelowItsRow() {
        PlanTable table = new PlanTable();
        ROWS.subList(0, 4).forEach(table::make);
        assertThat(table.head(80))
                .isEqualTo("controller  every  achieved reads scan ms measured turnaround left out requests");
        assertThat(ROWS.subList(0, 4).stream().flatMap(row -> table.text(row, 100).stream()))
                .containsExactly(
                        "line annex: 9 reads, load 31.3 % predicted, 30.0 % measured; scan 1234.0 ms",
                        "boiler-1      1 s    1.00 s     4   112.0    110.5       20.1        7   123456",
                        "boiler-1   10 min 11.00 min     4   112.0    110.5      (5.0)        7   123456",
                        "  refused: nowhere, other and 3 more",
                        "boiler-2      3 h      dead     4   112.0        -      (5.0)        7   123456",
                        "  no-reply: no reply to unit 2");
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 10, 40, 60, 80, 100, 300})
    void noLineIsWiderThanTheTerminal(int width) {
        assertThat(TextWidth.of(table().head(width))).isLessThanOrEqualTo(width);
        assertThat(text(table(), width)).allMatch(line -> TextWidth.of(line) <= width);
    }

    @Test
    void atEightyColumnsOnlyNamesGiveWay() {
        assertThat(table().head(80)).endsWith("requests").contains("left out");
        assertThat(text(table(), 80)).anyMatch(line -> line.startsWith("·[31ma-") && line.endsWith("123456"));
    }

    @Test
    void theColourSaysWhetherTheIntervalIsKept() {
        List<@Nullable Quality> colours = ROWS.stream()
                .map(row -> table().lines(row, 100).get(0).quality())
                .toList();
        assertThat(colours).containsExactly(null, Quality.GOOD, Quality.UNCERTAIN, Quality.BAD, null);
        ScreenLine line = table().lines(ROWS.get(3), 200).get(0);
        assertThat(line.text().substring(line.from(), line.to())).isEqualTo("dead");
    }

    @Test
    void inCsvEveryRowHasTheCellsOfTheHead() {
        int cells = PlanCsv.HEAD.split(",").length;
        assertThat(ROWS).allMatch(row -> PlanCsv.line(row).split(",", -1).length == cells);
        assertThat(PlanCsv.line(ROWS.get(1)))
                .isEqualTo("annex,boiler-1,1.000000,1.004000,4,0.112000,0.110460,0.112000,,0.005000,0.020125,7,123456,"
                        + "up,,");
    }

    private static final class Source implements ScanSource {
        @Override
        public int read(int from, int most, Consumer<ScanRow> row) {
            ROWS.stream().skip(from).limit(most).forEach(row);
            return ROWS.size();
        }

        @Override
        public void close() {}
    }

    @Test
    void aPageIsFilledWithWholeRowsAndKeysTurnIt() throws Exception {
        LivePlan live = new LivePlan(new Source(), "site quillmere", new HandClock(), Duration.ofSeconds(1));
        Terminal.Size size = new Terminal.Size(80, 7);
        assertThat(live.lines(size).stream().map(ScreenLine::text))
                .hasSize(7)
                .startsWith("site quillmere")
                .endsWith("rows 1 to 3 of 5 | q ends, space and b turn the page, arrows move");
        live.move(Key.NEXT_PAGE, size);
        assertThat(live.lines(size).get(6).text()).startsWith("rows 4 to 5 of 5");
        live.move(Key.NEXT_PAGE, size);
        live.move(Key.NEXT_PAGE, size);
        assertThat(live.lines(size).get(6).text()).startsWith("rows 4 to 5 of 5");
        live.move(Key.PAGE_BEFORE, size);
        assertThat(live.lines(size).get(6).text()).startsWith("rows 2 to 3 of 5");
        assertThat(live.lines(new Terminal.Size(80, 24)).get(23).text()).startsWith("rows 2 to 5");
    }
}
