package burnerbridge.site;

import java.util.Set;
import java.util.regex.Pattern;

/**
 * A name of a site, line, type, controller or point: lower-case words of letters and digits, joined by
 * hyphens, at most 64 characters. It is part of topics, object names and file names.
 */
public record Name(String text) implements Comparable<Name> {
    private static final Pattern FORM = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");
    private static final int LONGEST = 64;
    /** Words that the topics need for themselves. */
    private static final Set<String> TAKEN = Set.of("link", "events", "about", "ask", "reply");

    public Name {
        String objection = objectionTo(text);
        if (!objection.isEmpty()) {
            throw new IllegalArgumentException(objection);
        }
    }

    /** What is wrong with a text as a name; empty where nothing is. */
    public static String objectionTo(String text) {
        if (text.length() > LONGEST) {
            return "a name has at most " + LONGEST + " characters (was " + text.length() + ")";
        }
        if (!FORM.matcher(text).matches()) {
            return "a name is lower-case words joined by hyphens, like flue-temperature (was '" + text + "')";
        }
        if (TAKEN.contains(text)) {
            return "'" + text + "' is kept for topics of the bridge itself";
        }
        return "";
    }

    @Override
    public int compareTo(Name other) {
        return text.compareTo(other.text);
    }

    @Override
    public String toString() {
        return text;
    }
}
