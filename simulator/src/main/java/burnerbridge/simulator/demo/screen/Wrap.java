package burnerbridge.simulator.demo.screen;

import java.util.ArrayList;
import java.util.List;

/** Breaks sentences into lines. */
final class Wrap {
    private Wrap() {}

    /** At spaces; a word that is too long stands alone. */
    static List<String> at(int columns, String text) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ", -1)) {
            if (line.length() > 0 && line.length() + 1 + word.length() > columns) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
