package burnerbridge.bacnet.edge;

/**
 * What one peer may ask of us.
 *
 * @param requestsPerSecond requests that are answered; more wait their turn
 * @param waiting requests that may wait; more are dropped
 */
public record PeerLimits(int requestsPerSecond, int waiting) {
    public static final PeerLimits USUAL = new PeerLimits(200, 64);

    public PeerLimits {
        if (requestsPerSecond < 1 || waiting < 1) {
            throw new IllegalArgumentException("limits are 1 and up (were " + requestsPerSecond + ", " + waiting + ")");
        }
    }
}
