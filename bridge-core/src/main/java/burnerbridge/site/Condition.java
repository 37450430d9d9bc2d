package burnerbridge.site;

import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * When a point means something: while another point of its controller is in one of some states.
 *
 * @param point has states or is a bit, is polled, and has no condition itself
 * @param states as the controller numbers them; 0 and 1 of a bit
 */
public record Condition(Name point, Set<Long> states) {
    public Condition {
        states = Set.copyOf(states);
        if (states.isEmpty()) {
            throw new IllegalArgumentException("a condition on " + point + " needs a state");
        }
    }

    /** For people: {@code phase=5|6}. */
    public String text() {
        return point + "=" + new TreeSet<>(states).stream().map(String::valueOf).collect(Collectors.joining("|"));
    }
}
