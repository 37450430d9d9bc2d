package burnerbridge.daemon.explain;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import java.util.Comparator;
import java.util.List;

/**
 * Everything that is wrong with a site right now, as far as it can be told.
 *
 * @param site by its name, or where it is when it has none that can be read
 * @param origin where it is known from, for people
 * @param isReached whether a running bridge told it
 * @param troubles the heaviest of each place first
 */
public record Explanation(String site, String origin, boolean isReached, List<Trouble> troubles) {
    public Explanation {
        troubles = troubles.stream()
                .sorted(Comparator.comparing(Trouble::weight).reversed())
                .toList();
    }

    /** Those with a cause in one place. */
    public List<Trouble> at(Place place) {
        return troubles.stream().filter(trouble -> trouble.place() == place).toList();
    }

    /** How many are more than worth knowing. */
    public long wrong() {
        return troubles.stream()
                .filter(trouble -> trouble.weight() != Weight.NOTICE)
                .count();
    }

    /** How many are no more than worth knowing. */
    public long notices() {
        return troubles.size() - wrong();
    }

    /** In one word, as {@code /health} has it. */
    public String state() {
        if (troubles.stream().anyMatch(trouble -> trouble.weight() == Weight.NOT_READY)) {
            return Weight.NOT_READY.word();
        }
        return wrong() > 0 ? Weight.DEGRADED.word() : "ready";
    }
}
