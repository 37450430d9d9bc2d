package burnerbridge.benchmark.transactions;

import java.time.Duration;

/**
 * What is asked in every round.
 *
 * @param registers of each read
 * @param reads measured in a round
 * @param pause passes before each read and is not measured
 */
record Asked(int registers, int reads, Duration pause) {

    /** How many reads open each round unmeasured, on a fresh connection. */
    int warm() {
        return Math.max(1, reads / 10);
    }
}
