package burnerbridge.benchmark.all;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MarkedPlaceTest {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @Test
    void onlyWhatIsBetweenTheMarksIsReplaced() throws IOException {
        Path file = folder.resolve("page.md");
        Files.write(file, List.of("before", MarkedPlace.BEGIN, "old", "older", MarkedPlace.END, "after"));

        new MarkedPlace(file).replace(List.of("new"));
        new MarkedPlace(file).replace(List.of("newer"));

        assertThat(file)
                .hasContent(
                        String.join("\n", "before", MarkedPlace.BEGIN, "", "newer", "", MarkedPlace.END, "after", ""));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "B", "E", "E B", "B E B", "B E E"})
    void aPageThatIsNotMarkedOnceIsRefused(String marks) throws IOException {
        Path file = folder.resolve("page.md");
        String page = marks.replace('E', '#').replace("B", MarkedPlace.BEGIN).replace("#", MarkedPlace.END);
        Files.write(file, List.of(page.replace("> <", ">\n<")));

        assertThatIllegalArgumentException()
                .isThrownBy(() -> new MarkedPlace(file))
                .withMessageStartingWith(file + ": must have the lines <!-- benchmark/run all: from here -->");
    }

    @Test
    void aPageThatIsNotThereIsRefused() {
        Path file = folder.resolve("none.md");

        assertThatIllegalArgumentException()
                .isThrownBy(() -> new MarkedPlace(file))
                .withMessage(file + ": there is no such file");
    }
}
