package burnerbridge.daemon.screen;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Quality;
import burnerbridge.model.Reason;
import burnerbridge.values.AskedFor;
import burnerbridge.values.PointRow;
import java.time.Duration;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RowTableTest {
    private static final List<PointRow> ROWS = List.of(
            Rows.good("flue-temperature", "0572", new java.math.BigDecimal("89.4"), "89.4", "°C"),
            Rows.good("serial-number", "4142 4344 4546 4748 494A 4B4C", "ABCDEFGHIJKL", "ABCDEFGHIJKL", ""),
            Rows.not(Reason.NO_REPLY, "starts", Rows.number("4213")),
            Rows.not(Reason.REFUSED, "nowhere", null),
            Rows.not(Reason.NOT_APPLICABLE, "a-point-with-a-rather-long-name-that-goes-on-and-on", null),
            Rows.good("phase", "予備パージ中です"),
            Rows.good("text", "\u001b[31mred\u0007\u202Eevil"));

    private static RowTable table(boolean addresses) {
        RowTable table = new RowTable(addresses);
        ROWS.forEach(table::make);
        return table;
    }

    @Test
    void columnsAreAlignedAndNumbersToTheRight() {
        RowTable table = new RowTable(false);
        List<PointRow> rows = List.of(ROWS.get(0), ROWS.get(2), ROWS.get(3));
        rows.forEach(table::make);
        assertThat(table.head(100))
                .isEqualTo("controller  point             registers     value  unit  quality          age");
        assertThat(rows.stream().map(row -> table.text(row, 100)))
                .containsExactly(
                        "boiler-1    flue-temperature  0572           89.4  °C    good             1 s",
                        "boiler-1    starts                         (4213)        stale no-reply   1 s",
                        "boiler-1    nowhere                             -        bad refused 2    1 s");
    }

    private static AskedFor asked(AskedFor.State state) {
        return new AskedFor(
                state,
                8,
                Rows.number("35.5"),
                "bacnet 192.0.2.7:47808",
                Duration.ofSeconds(893),
                "",
                Duration.ZERO,
                OptionalLong.empty());
    }

    @Test
    void whoAsksForWhatIsShownWhereAnyPointMayBeWritten() {
        RowTable table = new RowTable(false);
        List<PointRow> rows = List.of(
                Rows.asked(ROWS.get(0), asked(AskedFor.State.STANDS)),
                Rows.asked(ROWS.get(0), asked(AskedFor.State.WAITS)),
                Rows.asked(ROWS.get(0), asked(AskedFor.State.NOT_APPROVED)),
                ROWS.get(3));
        rows.forEach(table::make);
        assertThat(table.head(100)).endsWith("age  asked for");
        assertThat(rows.stream().map(row -> table.text(row, 100)))
                .satisfiesExactly(
                        row -> assertThat(row).endsWith("1 s  8: 35.5, 14 min"),
                        row -> assertThat(row).endsWith("1 s  8: 35.5 waits, 14 min"),
                        row -> assertThat(row).endsWith("1 s  not approved"),
                        row -> assertThat(row).endsWith("1 s"));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 10, 40, 60, 80, 100, 132, 300})
    void noLineIsWiderThanTheTerminal(int width) {
        for (boolean addresses : new boolean[] {false, true}) {
            RowTable table = table(addresses);
            assertThat(TextWidth.of(table.head(width))).isLessThanOrEqualTo(width);
            for (PointRow row : ROWS) {
                assertThat(TextWidth.of(table.text(row, width))).as(row.point()).isLessThanOrEqualTo(width);
            }
        }
    }

    @Test
    void atEightyColumnsEveryColumnIsStillThere() {
        RowTable table = table(false);
        assertThat(table.head(80)).contains("point", "registers", "value", "quality", "age");
        for (PointRow row : ROWS) {
            assertThat(table.text(row, 80))
                    .startsWith("boiler-1")
                    .endsWith("1 s")
                    .contains(row.quality().word());
        }
    }

    @Test
    void aTableStandsStillWhenItsRowsGetNarrower() {
        RowTable table = table(false);
        String before = table.text(ROWS.get(0), 200);
        table.make(Rows.good("x", "1"));
        assertThat(table.text(ROWS.get(0), 200)).isEqualTo(before);
    }

    @Test
    void whatATerminalWouldObeyIsNotSentToIt() {
        assertThat(table(false).text(ROWS.get(6), 200))
                .contains("·[31mred··evil")
                .doesNotContain("\u001b", "\u0007", "\u202E");
    }

    @Test
    void bothNumberingsAreShownWhenAskedFor() {
        assertThat(table(true).text(ROWS.get(0), 200)).contains("holding-register 40101 (wire 100)");
        assertThat(table(false).text(ROWS.get(0), 200)).doesNotContain("40101");
    }

    @Test
    void theColourIsThatOfTheQualityAndStandsWhereItStands() {
        ScreenLine line = table(false).line(ROWS.get(2), 200);
        assertThat(line.text().substring(line.from(), line.to())).isEqualTo("stale no-reply");
        assertThat(line.at(line.from())).isEqualTo(Quality.STALE);
        assertThat(line.at(line.to())).isNull();
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0 s",
        "1999, 1 s",
        "99999, 99 s",
        "100000, 1 min",
        "5999999, 99 min",
        "6000000, 1 h",
        "359999999, 99 h",
        "360000000, 4 d"
    })
    void agesAreShort(long millis, String words) {
        assertThat(Column.age(Duration.ofMillis(millis))).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({"abc, 3, abc", "abcd, 3, ab…", "予備パージ, 5, 予備…", "予備パージ, 4, 予…", "abc, 1, …", "abc, 0, ''"})
    void textIsCutByCells(String text, int width, String cut) {
        assertThat(TextWidth.cut(text, width)).isEqualTo(cut);
    }

    @Test
    void marksTakeNoCell() {
        assertThat(TextWidth.of("e\u0301")).isEqualTo(1);
        assertThat(TextWidth.of("\uD83D\uDD25")).isEqualTo(2);
    }
}
