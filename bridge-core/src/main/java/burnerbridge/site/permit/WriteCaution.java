package burnerbridge.site.permit;

import java.util.ArrayList;
import java.util.List;

/** What stands wherever points are listed that may be written. */
public final class WriteCaution {
    private static final String REST =
            " is not a safety device and no part of a burner's protective system. Hard-wired limits and interlocks must"
                    + " work with this box unplugged. Adjusting a burner is for licensed, competent people with combustion"
                    + " instruments. Local codes, the manufacturer's instructions and the authority having jurisdiction come"
                    + " first. The bridge trusts the point list as it was typed: check every point against the controller's"
                    + " own display before use.";

    /** As sentences of their own. */
    public static final String TEXT = "This" + REST;

    /** The same behind the word that says what it is. */
    public static final String LABELLED = "Caution: this" + REST;

    private WriteCaution() {}

    /** A text in lines of at most so many characters, cut between words. */
    public static List<String> lines(String text, int longest) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ", -1)) {
            if (line.length() > 0 && line.length() + 1 + word.length() > longest) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
