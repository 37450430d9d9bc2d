package burnerbridge.simulator.controller;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.ExampleSite;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The bindings of the example site against its point list, without the bridge. */
class BindingsTest {

    @Test
    void everyPointIsBoundToTheKindOfObjectThatItsRowAsksFor() throws IOException {
        Map<String, String> expected = ExampleSite.pointRows().stream()
                .map(ListedPoint::new)
                .collect(Collectors.toMap(ListedPoint::name, BindingsTest::kind));
        Map<String, String> bound =
                rowsOf("hot-water").collect(Collectors.toMap(row -> row.get("point"), row -> row.get("object")));

        assertThat(bound).isEqualTo(expected);
    }

    @Test
    void offsetsAreUniqueAndBeginAtOne() throws IOException {
        List<Integer> offsets = rowsOf("hot-water")
                .map(row -> Integer.valueOf(row.get("offset")))
                .toList();

        assertThat(offsets).doesNotHaveDuplicates().allMatch(offset -> offset >= 1);
    }

    @Test
    void everyBindingIsOfTheOneTypeOrOfTheGroup() throws IOException {
        assertThat(ExampleSite.bindingRows())
                .allMatch(row -> Set.of("hot-water", "plant").contains(row.get("type")));
    }

    private static Stream<Map<String, String>> rowsOf(String type) throws IOException {
        return ExampleSite.bindingRows().stream().filter(row -> type.equals(row.get("type")));
    }

    private static String kind(ListedPoint point) {
        if (point.isBit()) {
            return "binary-input";
        }
        return point.hasStates() ? "multi-state-input" : "analog-input";
    }
}
