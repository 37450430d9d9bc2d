package burnerbridge.config.problem;

import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.Name;
import java.util.HashMap;
import java.util.Map;

/** Warns of names that a reader takes for each other: by a hyphen, or by letters and digits that look alike. */
public final class SimilarNames {
    private final String prefix;
    private final Problems problems;
    private final Map<String, Name> byLook = new HashMap<>();
    private final Map<Name, Place> places = new HashMap<>();

    /** @param prefix what stands before a name in a message: {@code controllers.} */
    public SimilarNames(String prefix, Problems problems) {
        this.prefix = prefix;
        this.problems = problems;
    }

    /** Adds a name and compares it with those before. */
    public void add(Name name, Place place) {
        Name other = byLook.putIfAbsent(look(name.text()), name);
        places.put(name, place);
        Place before = places.get(other == null ? name : other);
        if (other != null && before != null && !other.equals(name)) {
            problems.warning(
                    place,
                    prefix + name + ": is easily taken for " + prefix + other + " of line " + before.line()
                            + "; is one of them a slip of the pen?");
        }
    }

    /** Two names with the same look differ in hyphens, or in characters such as 0 and o, only. */
    private static String look(String name) {
        // Between digits a hyphen tells numbers apart: 1-11 is not 11-1.
        return name.replaceAll("(?<!\\d)-|-(?!\\d)", "")
                .replace('0', 'o')
                .replace('1', 'l')
                .replace('i', 'l')
                .replace("rn", "m")
                .replace("vv", "w");
    }
}
