package burnerbridge.daemon.outside;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What a page of {@code docs} tells its reader to write, to type and to see, in its order. */
public final class GuidePage {
    public static final Path DOCS = Path.of("..", "docs");
    private static final String FENCE = "```";

    /**
     * A fenced block.
     *
     * @param kind the word behind its fence: {@code yaml}, {@code csv}, {@code conf}, {@code sh} or {@code text}
     */
    public record Block(String kind, List<String> lines) {
        public String first() {
            return lines.get(0);
        }

        /** Whether its page says that no test can follow it, and why. */
        public boolean isByHand() {
            return first().startsWith("# by hand: ");
        }
    }

    private final List<String> lines;

    public GuidePage(String name) throws IOException {
        lines = Files.readAllLines(DOCS.resolve(name));
    }

    /** The blocks with a kind; the others are for reading. */
    public List<Block> blocks() {
        return fenced(lines).stream().filter(block -> !block.kind().isEmpty()).toList();
    }

    /** All blocks of a page. */
    static List<Block> fenced(Path page) throws IOException {
        return fenced(Files.readAllLines(page));
    }

    private static List<Block> fenced(List<String> lines) {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).startsWith(FENCE)) {
                int end = i + 1 + lines.subList(i + 1, lines.size()).indexOf(FENCE);
                blocks.add(new Block(lines.get(i).substring(FENCE.length()), lines.subList(i + 1, end)));
                i = end;
            }
        }
        return blocks;
    }

    /** What the controller's display shows, in the order of the point list: {@code 183.4 °C}. */
    List<String> display() {
        int first = lines.indexOf("| on the display | |") + 2;
        return lines.subList(first, lines.size()).stream()
                .takeWhile(line -> line.startsWith("|"))
                .map(line -> line.split("\\|")[2].strip().replace('−', '-'))
                .flatMap(cell -> List.of(cell.split(", ")).stream())
                .toList();
    }
}
