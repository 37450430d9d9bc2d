package burnerbridge.benchmark.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

class FigureRowsTest {
    private static final Figure FULL = Figure.quartiles(
                    "a read of 1, 10 and \"more\" registers", "µs", new Spread(1, 20.25, 21.5, 22.75, 99))
            .beside("libmodbus", 20)
            .aiming(Aim.ratioAtMost(1.3))
            .in("transactions");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @Command(name = "measured")
    static final class Measuring {
        @Mixin
        private final Figures figures = new Figures();
    }

    @Test
    void aRowHasOneOrderAndAllDigits() {
        assertThat(FigureRows.row(FULL))
                .isEqualTo("\"transactions\",\"a read of 1, 10 and \"\"more\"\" registers\",\"µs\",21.5,20.25,22.75,"
                        + "\"quartiles\",\"libmodbus\",20.0,\"ratio ..1.3\"");
    }

    @Test
    void whatIsWrittenIsRead() {
        Figure bare = Figure.once("memory", "MiB", 95.5).aiming(Aim.atMost(96)).in("start");
        Figure within = Figure.range("scan", "", new Spread(1, 2, 3, 4, 5))
                .beside("foretold", 3)
                .aiming(Aim.ratioWithin(0.97, 1.03))
                .in("pace");

        for (Figure figure : List.of(FULL, bare, within, Figure.once("", "", 0).in("x"))) {
            assertThat(FigureRows.parse(FigureRows.row(figure))).isEqualTo(figure);
        }
    }

    @Test
    void aCommandLeavesItsFiguresUnderItsName() throws IOException {
        Path file = Files.writeString(folder.resolve("figures.csv"), "of an earlier run\n");
        Measuring command = new Measuring();
        new CommandLine(command).parseArgs("--figures", file.toString());

        command.figures.add(Figure.once("one", "", 1));
        command.figures.add(Figure.once("two", "", 2));

        assertThat(Files.readAllLines(file).get(0)).isEqualTo(FigureRows.HEADER);
        assertThat(FigureRows.read(file))
                .containsExactly(
                        Figure.once("one", "", 1).in("measured"),
                        Figure.once("two", "", 2).in("measured"));
    }

    @Test
    void withoutAFileNothingIsLeft() {
        Measuring command = new Measuring();
        new CommandLine(command).parseArgs();

        command.figures.add(Figure.once("one", "", 1));

        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void aFileThatIsNotThereHasNone() throws IOException {
        assertThat(FigureRows.read(folder.resolve("none.csv"))).isEmpty();
    }

    @Test
    void aLineThatIsNoRowIsNamed() throws IOException {
        Path file = folder.resolve("figures.csv");
        Files.write(file, List.of(FigureRows.HEADER, FigureRows.row(FULL), "\"lines\",\"cut o"));

        assertThatIllegalArgumentException()
                .isThrownBy(() -> FigureRows.read(file))
                .withMessage(file + ":3: no row: \"lines\",\"cut o");
    }

    @Test
    void aRowOfOtherColumnsIsRefused() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> FigureRows.parse("\"lines\",1"))
                .withMessage("must have 10 columns (has 2)");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> FigureRows.parse(FigureRows.row(FULL).replace("quartiles", "tenths")))
                .withMessage("no spread: tenths");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> FigureRows.parse(FigureRows.row(FULL).replace("ratio ..1.3", "soon")))
                .withMessage("no aim: soon");
    }

    @Test
    void anotherHeaderIsRefused() throws IOException {
        Path file = Files.writeString(folder.resolve("other.csv"), "a,b\n");

        assertThatIllegalArgumentException()
                .isThrownBy(() -> FigureRows.read(file))
                .withMessageStartingWith(file + ":1: must be the header run,what,unit,");
    }
}
