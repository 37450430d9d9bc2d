package burnerbridge.bacnet.cov;

/**
 * What subscribers may ask for.
 *
 * @param perPeer subscriptions of one peer
 * @param inAll subscriptions of all peers
 * @param waiting confirmed notifications of one peer that wait for their acknowledgement
 */
public record CovLimits(int perPeer, int inAll, int waiting) {
    /** One subscription for each object that a device should have at most. */
    public static final CovLimits USUAL = new CovLimits(500, 10_000, 64);

    public CovLimits {
        if (perPeer < 1 || inAll < 1 || waiting < 1) {
            throw new IllegalArgumentException(
                    "limits are 1 and up (were " + perPeer + ", " + inAll + ", " + waiting + ")");
        }
    }
}
