package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.measure.Metric;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.lang.reflect.Field;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** {@code docs/watching.md} against the metrics that the code has: each is there, and nothing else. */
class WatchingPageTest {
    private static final Path PAGE = Path.of("..", "docs", "watching.md");

    private static Map<String, Metric> metrics() {
        Map<String, Metric> all = new TreeMap<>();
        new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS).importPackages("burnerbridge").stream()
                        .flatMap(type -> type.getFields().stream())
                        .filter(field -> field.getRawType().isEquivalentTo(Metric.class)
                                && field.getModifiers().contains(JavaModifier.STATIC))
                        .map(WatchingPageTest::value)
                        .forEach(metric -> assertThat(all.put(metric.name(), metric))
                                .as("one definition of " + metric.name())
                                .isNull());
        return all;
    }

    private static Metric value(JavaField field) {
        try {
            Field reflected = field.reflect();
            reflected.setAccessible(true);
            return (Metric) reflected.get(null);
        } catch (IllegalAccessException e) {
            throw new AssertionError(e);
        }
    }

    private static String row(Metric metric) {
        String labels = metric.labels().stream().map(label -> "`" + label + "`").collect(Collectors.joining(", "));
        return "| `" + metric.name() + "` | " + metric.kind().name().toLowerCase(Locale.ROOT) + " | " + labels + " | "
                + metric.help() + " |";
    }

    @Test
    void everyMetricHasItsRowAndNothingElseHas() throws IOException {
        List<String> rows = Files.readAllLines(PAGE).stream()
                .filter(line -> line.startsWith("| `burner_bridge_"))
                .toList();

        assertThat(rows)
                .containsExactlyElementsOf(
                        metrics().values().stream().map(WatchingPageTest::row).toList());
    }

    @Test
    void everyMetricSaysWhatItIsInASentence() {
        assertThat(metrics()).hasSizeGreaterThan(50);
        assertThat(metrics().values()).allSatisfy(metric -> {
            assertThat(metric.name()).startsWith("burner_bridge_");
            assertThat(metric.help()).endsWith(".").doesNotContain("\n").hasSizeBetween(15, 200);
        });
    }
}
