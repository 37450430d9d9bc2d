package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SchemaKeys.Key;
import burnerbridge.config.point.PointListReader;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.register.FormatCell;
import burnerbridge.site.Role;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The page that a person reads says what the schema and the loader know. */
class SiteFolderPageTest {
    private static final Pattern CODE = Pattern.compile("`([^`]+)`");

    @SuppressWarnings("NullAway.Init")
    private static List<String> page;

    @BeforeAll
    static void read() throws IOException {
        page = Files.readAllLines(Path.of("..", "docs", "site-folder.md"));
    }

    /** The cells of the first table under a header, without the header. */
    private static List<List<String>> table(String header) {
        int first = page.indexOf(header);
        assertThat(first).as(header).isNotNegative();
        return page.subList(first + 2, page.size()).stream()
                .takeWhile(line -> line.startsWith("|"))
                .map(line -> Arrays.stream(line.substring(1).split("(?<!\\\\)\\|", -1))
                        .map(String::strip)
                        .toList())
                .toList();
    }

    private static List<String> codes(String cell) {
        List<String> codes = new ArrayList<>();
        for (Matcher code = CODE.matcher(cell); code.find(); ) {
            codes.add(code.group(1));
        }
        return codes;
    }

    private static List<String> codes(List<List<String>> table) {
        return table.stream().flatMap(row -> codes(row.get(0)).stream()).toList();
    }

    private static Map<String, String> siteKeys() {
        Map<String, String> keys = new LinkedHashMap<>();
        addKeys(keys, "", table("| key | meaning | default |"));
        addKeys(keys, "write-permits." + SchemaKeys.ITEM + ".", table("| key of a permit | meaning | default |"));
        return keys;
    }

    /** The keys with the cell of their default; {@code .port} is a neighbour of the key before it. */
    private static void addKeys(Map<String, String> keys, String prefix, List<List<String>> table) {
        for (List<String> row : table) {
            String before = "";
            for (String code : codes(row.get(0))) {
                before = code.startsWith(".") ? before.substring(0, before.lastIndexOf('.')) + code : prefix + code;
                assertThat(keys.put(before, row.get(2).replace("`", "")))
                        .as("%s stands there twice", before)
                        .isNull();
            }
        }
    }

    @Test
    void thePageHasTheKeysOfTheSchemaAndNoOthers() {
        assertThat(siteKeys().keySet())
                .containsExactlyInAnyOrderElementsOf(
                        new SchemaKeys().keys().stream().map(Key::path).toList());
    }

    @Test
    void thePageHasTheDefaultsOfTheSchema() {
        Map<String, String> page = siteKeys();
        for (Key key : new SchemaKeys().keys()) {
            String cell = page.get(key.path());
            if (key.required()) {
                assertThat(cell).as("%s", key).contains("required");
            } else if (key.schema().has("default")) {
                assertThat(cell)
                        .as("%s", key)
                        .isEqualTo(key.schema().get("default").asString());
            } else {
                assertThat(key.schema().get("description").asString())
                        .as("%s", key)
                        .endsWith("Default: " + cell + ".");
            }
        }
    }

    @Test
    void thePageHasTheColumnsThatAreRead() {
        List<String> columns = new ArrayList<>(PointListReader.COLUMNS);
        // One for each language.
        columns.add("text.xx");
        assertThat(codes(table("| column | meaning | empty |"))).containsExactlyInAnyOrderElementsOf(columns);
    }

    @Test
    void thePageHasTheFormatsThatAreRead() {
        assertThat(codes(table("| format | registers | holds |")))
                .containsExactlyInAnyOrderElementsOf(FormatCell.KNOWN);
    }

    @Test
    void thePageHasTheRolesAndHowOftenEachIsRead() {
        Map<String, String> every = new LinkedHashMap<>();
        table("| role | read every |").forEach(row -> codes(row.get(0)).forEach(word -> every.put(word, row.get(1))));
        Map<String, String> expected = new LinkedHashMap<>();
        for (Role role : Role.values()) {
            expected.put(role.word(), role.defaultEvery().map(Durations::text).orElse("never"));
        }
        assertThat(every).containsExactlyInAnyOrderEntriesOf(expected);
    }
}
