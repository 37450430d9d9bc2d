package burnerbridge.site.unit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The reference page says what the table says, row by row. */
class UnitsPageTest {
    private static final Path PAGE = Path.of("..", "docs", "units.md");

    private static String row(Unit unit) {
        return Stream.of(
                        code(unit.symbol()),
                        unit.ucumCodes().stream().map(UnitsPageTest::code).collect(Collectors.joining(" ")),
                        unit.quantity().word().replace('-', ' ') + (unit.isDifference() ? " difference" : ""),
                        Integer.toString(unit.bacnetNumber()),
                        shown(unit, UnitSystem.METRIC),
                        shown(unit, UnitSystem.IMPERIAL),
                        unit.source())
                .collect(Collectors.joining(" | ", "| ", " |"));
    }

    private static String code(String text) {
        return "`" + text + "`";
    }

    private static String shown(Unit unit, UnitSystem system) {
        String symbol = unit.symbolIn(system);
        return symbol.isEmpty() ? "" : code(symbol);
    }

    @Test
    void everyUnitStandsOnThePage() throws IOException {
        List<String> rows = Files.readAllLines(PAGE).stream()
                .filter(line -> line.startsWith("| `")
                        && line.chars().filter(c -> c == '|').count() == 8)
                .toList();
        assertThat(rows)
                .containsExactlyElementsOf(
                        Unit.all().stream().map(UnitsPageTest::row).toList());
    }

    @Test
    void everyBasisStandsOnThePage() throws IOException {
        String page = Files.readString(PAGE);
        for (Quantity quantity : Quantity.values()) {
            if (!quantity.allowed().isEmpty()) {
                String words = Arrays.stream(quantity.allowed().split(" "))
                        .map(UnitsPageTest::code)
                        .collect(Collectors.joining(" "));
                assertThat(page).contains("| " + quantity.word().replace('-', ' ') + " | " + words + " |");
            }
        }
    }
}
