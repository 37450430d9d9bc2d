package burnerbridge.config;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * A site folder in which everything is said that can be said, and a table of damages to it.
 *
 * <p>A line of the table is {@code file # what stands there # what is put in its place # what is told}. Nothing
 * for what stands there replaces the whole file. {@code \n}, {@code \0} and the like are written so.
 */
final class DamagedSites {
    private static final List<String> FILES =
            List.of("site.yaml", "points/hot-water.csv", "points/steam.csv", "codes/causes.csv", "bindings.csv");

    /**
     * One damage.
     *
     * @param line of the table, for messages
     * @param expected how what is told begins, place and all
     */
    record Damage(int line, String file, String from, String to, String expected) {
        @Override
        public String toString() {
            return "line " + line + ": " + file + ": '" + from + "' becomes '" + to + "'";
        }
    }

    private DamagedSites() {}

    static Path resource(String name) {
        URL found = Objects.requireNonNull(DamagedSites.class.getResource("/" + name), name);
        try {
            return Path.of(found.toURI());
        } catch (URISyntaxException e) {
            throw new IllegalArgumentException(name, e);
        }
    }

    /** Writes the sound site. */
    static void writeTo(Path folder) {
        try {
            Files.createDirectories(folder.resolve("points"));
            Files.createDirectories(folder.resolve("codes"));
            for (String file : FILES) {
                Files.copy(resource("every-feature").resolve(file), folder.resolve(file));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Stream<Damage> table() throws IOException {
        List<String> lines = Files.readAllLines(resource("damaged-sites.txt"));
        return Stream.iterate(0, i -> i < lines.size(), i -> i + 1)
                .filter(i -> !lines.get(i).isBlank() && !lines.get(i).startsWith("//"))
                .map(i -> damage(i + 1, lines.get(i)));
    }

    private static Damage damage(int number, String line) {
        String[] cells = line.split(" #(?= |$)", -1);
        if (cells.length != 4) {
            throw new IllegalArgumentException("damaged-sites.txt:" + number + " has " + cells.length + " cells");
        }
        return new Damage(number, cells[0].strip(), unescaped(cells[1]), unescaped(cells[2]), cells[3].strip());
    }

    private static String unescaped(String cell) {
        return cell.strip()
                .replace("\\n", "\n")
                .replace("\\t", "\t")
                .replace("\\0", "\0")
                .replace("\\s", " ");
    }

    /** Does one damage to a sound site. */
    static void damage(Path folder, Damage damage) {
        try {
            Path file = folder.resolve(damage.file());
            String text = Files.readString(file, StandardCharsets.UTF_8);
            if (!text.contains(damage.from())) {
                throw new IllegalArgumentException(damage + ": that does not stand there");
            }
            int at = text.indexOf(damage.from());
            String damaged = damage.from().isEmpty()
                    ? damage.to()
                    : text.substring(0, at)
                            + damage.to()
                            + text.substring(at + damage.from().length());
            Files.writeString(file, damaged, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
