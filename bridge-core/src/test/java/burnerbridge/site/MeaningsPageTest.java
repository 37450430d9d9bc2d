package burnerbridge.site;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.unit.Quantity;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The reference page says what the list says, meaning by meaning. */
class MeaningsPageTest {
    private static final Path PAGE = Path.of("..", "docs", "meanings.md");

    private static List<List<String>> page() throws IOException {
        return Files.readAllLines(PAGE).stream()
                .filter(line -> line.startsWith("| `"))
                .map(line ->
                        Arrays.stream(line.split("\\|", -1)).map(String::strip).toList())
                .toList();
    }

    private static List<String> row(Meaning meaning) {
        return List.of(
                "`" + meaning.word() + "`",
                meaning.kinds().stream().map(Meaning.Kind::word).collect(Collectors.joining(" ")),
                meaning.quantities().stream().map(MeaningsPageTest::text).collect(Collectors.joining(", ")),
                meaning.roles().stream().map(role -> "`" + role.word() + "`").collect(Collectors.joining(" ")),
                meaning.isOnce() ? "once" : "many");
    }

    private static String text(Quantity quantity) {
        return quantity == Quantity.NONE ? "no unit" : quantity.word().replace('-', ' ');
    }

    @Test
    void everyMeaningStandsOnThePageAndSaysWhatItTells() throws IOException {
        assertThat(page()).allSatisfy(cells -> assertThat(cells.get(2)).isNotEmpty());
        assertThat(page().stream()
                        .map(cells -> List.of(cells.get(1), cells.get(3), cells.get(4), cells.get(5), cells.get(6))))
                .containsExactlyElementsOf(Arrays.stream(Meaning.values())
                        .map(MeaningsPageTest::row)
                        .toList());
    }

    @Test
    void whatANumberIsIsSaidOfEachThatANumberCanTell() {
        assertThat(Meaning.values())
                .allSatisfy(meaning -> assertThat(meaning.quantities().isEmpty())
                        .isNotEqualTo(meaning.kinds().contains(Meaning.Kind.NUMBER)));
    }
}
