package burnerbridge.benchmark.all;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A place in a text, between two lines that mark it, whose content is replaced. */
final class MarkedPlace {
    static final String BEGIN = "<!-- benchmark/run all: from here -->";
    static final String END = "<!-- benchmark/run all: to here -->";

    private final Path file;

    /** @throws IllegalArgumentException where the file has not both lines, once and in this order */
    MarkedPlace(Path file) throws IOException {
        this.file = file;
        if (!Files.isRegularFile(file)) {
            throw new IllegalArgumentException(file + ": there is no such file");
        }
        placeIn(Files.readAllLines(file));
    }

    void replace(List<String> content) throws IOException {
        List<String> lines = new ArrayList<>(Files.readAllLines(file));
        List<String> place = placeIn(lines);
        place.clear();
        place.add("");
        place.addAll(content);
        place.add("");
        Files.write(file, lines);
    }

    private List<String> placeIn(List<String> lines) {
        int begin = lines.indexOf(BEGIN);
        int end = lines.indexOf(END);
        if (begin < 0 || end < begin || lines.lastIndexOf(BEGIN) != begin || lines.lastIndexOf(END) != end) {
            throw new IllegalArgumentException(
                    file + ": must have the lines " + BEGIN + " and " + END + ", once each and in this order");
        }
        return lines.subList(begin + 1, end);
    }
}
