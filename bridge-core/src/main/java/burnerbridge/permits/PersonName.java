package burnerbridge.permits;

import java.util.Optional;
import java.util.regex.Pattern;

/** The name that a person gives who approves or withdraws; nobody proves it. */
public final class PersonName {
    private static final int LONGEST = 80;
    private static final Pattern CONTROL = Pattern.compile("\\p{Cntrl}");

    private PersonName() {}

    /** Why a text is no name that can be kept, to follow what gave it; empty where it is one. */
    public static Optional<String> objectionTo(String text) {
        boolean sound = !text.isBlank()
                && text.length() <= LONGEST
                && !CONTROL.matcher(text).find();
        return sound
                ? Optional.empty()
                : Optional.of("must be the name of a person, of 1 to " + LONGEST + " letters (was '" + text + "')");
    }
}
