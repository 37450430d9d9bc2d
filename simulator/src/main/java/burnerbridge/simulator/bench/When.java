package burnerbridge.simulator.bench;

import burnerbridge.simulator.manners.Manners;
import java.util.Set;

/**
 * Toward which requests a device misbehaves.
 *
 * @param units to which of its units; empty for all
 * @param first for so many requests and no longer; 0 for all
 * @param every toward each so-manieth alone; 1 for each
 */
record When(Set<Integer> units, int first, int every) {
    static final When ALWAYS = new When(Set.of(), 0, 1);

    When {
        units = Set.copyOf(units);
    }

    /** Misbehaves then, and behaves well otherwise. Requests to other units do not count. */
    Manners then(Manners misbehaving) {
        int[] asked = {0};
        return exchange -> {
            if (!units.isEmpty() && !units.contains(exchange.request().unit())) {
                return Manners.WELL.toward(exchange);
            }
            int number = ++asked[0];
            boolean now = number % every == 0 && (first == 0 || number <= first);
            return (now ? misbehaving : Manners.WELL).toward(exchange);
        };
    }
}
