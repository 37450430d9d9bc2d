package burnerbridge.bacnet.edge;

import java.util.Optional;

/**
 * How the port is to be opened.
 *
 * @param port 0 for any free one
 * @param broadcast instead of the broadcast address of the network interface
 * @param endlessSubscriptions whether a subscription may be without end
 * @param registration with a broadcast management device of another network, where wanted
 */
public record PortSettings(
        String bind,
        int port,
        Optional<String> broadcast,
        PeerLimits limits,
        boolean endlessSubscriptions,
        Optional<Registration> registration) {

    /**
     * Where to register as a foreign device.
     *
     * @param host an IPv4 address
     * @param seconds for how long each time; it is renewed at half of that
     */
    public record Registration(String host, int port, int seconds) {
        public Registration {
            if (seconds < 30 || seconds > 65535) {
                throw new IllegalArgumentException("a registration lasts 30 to 65535 s (was " + seconds + ")");
            }
        }
    }

    /** A port with the usual limits. */
    public static PortSettings at(String bind, int port) {
        return new PortSettings(bind, port, Optional.empty(), PeerLimits.USUAL, false, Optional.empty());
    }
}
