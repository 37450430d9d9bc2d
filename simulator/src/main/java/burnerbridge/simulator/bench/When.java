package burnerbridge.simulator.bench;

import burnerbridge.simulator.manners.Exchange;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.WriteManners;
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
        return exchange -> (isNow(exchange, asked) ? misbehaving : Manners.WELL).toward(exchange);
    }

    /** The same toward writes, of which alone is counted. */
    WriteManners then(WriteManners misbehaving) {
        int[] asked = {0};
        return exchange -> (isNow(exchange, asked) ? misbehaving : WriteManners.WELL).toward(exchange);
    }

    private boolean isNow(Exchange exchange, int[] asked) {
        if (!units.isEmpty() && !units.contains(exchange.request().unit())) {
            return false;
        }
        int number = ++asked[0];
        return number % every == 0 && (first == 0 || number <= first);
    }
}
