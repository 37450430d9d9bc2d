package burnerbridge.simulator.bench;

import burnerbridge.simulator.manners.Manners;

/**
 * Toward which requests a device misbehaves.
 *
 * @param first for so many requests and no longer; 0 for all
 * @param every toward each so-manieth alone; 1 for each
 */
record When(int first, int every) {
    static final When ALWAYS = new When(0, 1);

    /** Misbehaves then, and behaves well otherwise. */
    Manners then(Manners misbehaving) {
        int[] asked = {0};
        return exchange -> {
            int number = ++asked[0];
            boolean now = number % every == 0 && (first == 0 || number <= first);
            return (now ? misbehaving : Manners.WELL).toward(exchange);
        };
    }
}
