package burnerbridge.bacnet.door;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.write.ask.Question;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The page says what is answered. */
final class CodesPageTest {
    private static final Path PAGE = Path.of("..", "docs", "bacnet.md");
    /** Names of the error classes that are given (ASHRAE 135, clause 18; numbers from memory). */
    private static final Map<Integer, String> CLASSES = Map.of(0, "device", 2, "property", 3, "resources");

    private static String told(Trouble trouble) {
        return CLASSES.get(trouble.errorClass()) + " / "
                + trouble.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    @ParameterizedTest
    @EnumSource(Question.class)
    void eachQuestionStandsBesideItsError(Question question) throws IOException {
        List<String> rows = Files.readAllLines(PAGE).stream()
                .filter(line -> line.startsWith("| `") && line.contains("`" + question.code() + "`"))
                .toList();
        assertThat(rows)
                .singleElement()
                .asString()
                .contains("| " + told(Codes.of(question, Trouble.INVALID_DATA_TYPE)) + " |");
    }
}
