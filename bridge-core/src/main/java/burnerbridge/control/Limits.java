package burnerbridge.control;

import java.time.Duration;

/**
 * What the bridge allows its clients.
 *
 * @param clients at the same time
 * @param idle how long a client may be silent between two requests
 * @param patience how long one that takes nothing of its reply is waited for
 */
record Limits(int clients, Duration idle, Duration patience) {
    static final Limits USUAL = new Limits(8, Duration.ofMinutes(2), Duration.ofSeconds(10));
}
