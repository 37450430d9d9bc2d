package burnerbridge.site;

import java.util.Optional;

/**
 * What a site may say of its BACnet side and most do not.
 *
 * @param basicObjects whether only object types are used that the oldest clients know
 * @param foreignDevice where to register as a foreign device
 * @param requestsPerSecond of one peer that are answered at once; 1 to 100,000
 * @param subscriptions of one peer; 1 to 10,000
 * @param endlessSubscriptions whether a subscription may have no end
 */
public record BacnetOptions(
        boolean basicObjects,
        ObjectNames objectNames,
        Optional<Registration> foreignDevice,
        int requestsPerSecond,
        int subscriptions,
        boolean endlessSubscriptions) {

    public static final int USUAL_REQUESTS_PER_SECOND = 200;
    public static final int USUAL_SUBSCRIPTIONS = 500;

    /** What counts where a site says nothing. */
    public static final BacnetOptions USUAL = new BacnetOptions(
            false, ObjectNames.USUAL, Optional.empty(), USUAL_REQUESTS_PER_SECOND, USUAL_SUBSCRIPTIONS, false);

    /**
     * A broadcast management device of another network.
     *
     * @param host an IPv4 address
     * @param seconds how long each registration lasts, 30 to 65535
     */
    public record Registration(String host, int port, int seconds) {}

    /** The same with other limits for each peer. */
    public BacnetOptions withLimits(int requests, int ofSubscriptions) {
        return new BacnetOptions(
                basicObjects, objectNames, foreignDevice, requests, ofSubscriptions, endlessSubscriptions);
    }
}
