package burnerbridge.mqtt.payload;

import java.util.ArrayList;
import java.util.List;

/** What stands wherever points are listed that may be written. */
public final class Caution {
    public static final String TEXT =
            "This is not a safety device and no part of a burner's protective system. Hard-wired limits and interlocks must"
                    + " work with this box unplugged. Adjusting a burner is for licensed, competent people with combustion"
                    + " instruments. Local codes, the manufacturer's instructions and the authority having jurisdiction come"
                    + " first. The bridge trusts the point list as it was typed: check every point against the controller's"
                    + " own display before use.";

    private Caution() {}

    /** The same in lines of at most so many characters. */
    public static List<String> lines(int longest) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder("Caution:");
        for (String word : TEXT.split(" ", -1)) {
            if (line.length() + 1 + word.length() > longest) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
