package burnerbridge.benchmark.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FigureTableTest {
    private static final Spread SPREAD = new Spread(0.5, 20.25, 21.5, 22.75, 1234.5);

    @Test
    void aFigureIsARowBesideItsReference() {
        Figure figure = Figure.quartiles("a read", "µs", SPREAD)
                .beside("libmodbus", 20)
                .aiming(Aim.ratioAtMost(1.3))
                .in("transactions");

        assertThat(FigureTable.lines(List.of(figure)))
                .containsExactly(
                        "| run | what | median | spread | reference | ratio | aim |",
                        "|---|---|---|---|---|---|---|",
                        "| transactions | a read, µs | 21.5 | 20.3..22.8 (quartiles) | libmodbus: 20.0 | 1.08"
                                + " | ratio at most 1.3: kept |");
    }

    @Test
    void aRunIsNamedOnceAndWhatIsMissingIsEmpty() {
        List<Figure> figures = List.of(
                Figure.range("rate | a second", "", SPREAD).in("mqtt"),
                Figure.once("memory", "MiB", 120.04).aiming(Aim.atMost(96)).in("mqtt"),
                Figure.once("memory", "MiB", 5).in("start"));

        assertThat(FigureTable.lines(figures).subList(2, 5))
                .containsExactly(
                        "| mqtt | rate \\| a second | 21.5 | 0.500..1235 (least..most) |  |  |  |",
                        "|  | memory, MiB | 120.0 | once |  |  | at most 96: **missed** |",
                        "| start | memory, MiB | 5.00 | once |  |  |  |");
    }

    @ParameterizedTest
    @CsvSource({"97, kept", "103, kept", "96.9, **missed**", "103.1, **missed**"})
    void anAimHasTwoSides(double value, String verdict) {
        Figure figure = Figure.once("scan", "ms", value).beside("foretold", 100).aiming(Aim.ratioWithin(0.97, 1.03));

        assertThat(FigureTable.lines(List.of(figure)).get(2)).endsWith("| ratio 0.97 to 1.03: " + verdict + " |");
    }

    @Test
    void aReferenceOfNothingHasNoRatio() {
        Figure figure = Figure.once("log lines", "", 3).beside("before", 0);

        assertThat(FigureTable.lines(List.of(figure)).get(2)).endsWith("| before: 0 |  |  |");
    }
}
