package burnerbridge.simulator;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The example site as files, read without any code of the bridge. */
public final class ExampleSite {
    private ExampleSite() {}

    public static Path folder() {
        return Path.of("..", "config", "examples", "quillmere").toAbsolutePath().normalize();
    }

    public static List<Map<String, String>> pointRows() throws IOException {
        return rows(folder().resolve("points/hot-water.csv"));
    }

    public static List<Map<String, String>> bindingRows() throws IOException {
        return rows(folder().resolve("bindings.csv"));
    }

    /** The rows of a table without quotes, by the names of their columns. */
    private static List<Map<String, String>> rows(Path file) throws IOException {
        List<String> lines = Files.readAllLines(file);
        List<String> columns = List.of(lines.get(0).split(",", -1));
        List<Map<String, String>> rows = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = List.of(line.split(",", -1));
            if (line.contains("\"") || cells.size() != columns.size()) {
                throw new AssertionError(file + ": " + columns.size() + " plain cells expected: " + line);
            }
            Map<String, String> row = new LinkedHashMap<>();
            for (int i = 0; i < columns.size(); i++) {
                row.put(columns.get(i), cells.get(i));
            }
            rows.add(row);
        }
        return rows;
    }
}
