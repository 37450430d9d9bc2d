package burnerbridge.mqtt.broker;

import java.net.URI;
import java.util.Set;

/** A broker's address, checked. */
record BrokerAddress(String host, int port, boolean encrypted) {
    private static final Set<String> PLAIN = Set.of("mqtt", "tcp");
    private static final Set<String> ENCRYPTED = Set.of("mqtts", "tls");

    /**
     * @throws IllegalArgumentException where the scheme is another than mqtt, tcp, mqtts or tls, or there is
     *     more or less than a host and a port
     */
    static BrokerAddress of(URI address) {
        String scheme = address.getScheme();
        if (scheme == null || !(PLAIN.contains(scheme) || ENCRYPTED.contains(scheme))) {
            throw new IllegalArgumentException("a broker's address begins with tcp:// or tls:// (was " + scheme + ")");
        }
        boolean bare = address.getHost() != null
                && address.getPort() > 0
                && address.getPath().isEmpty()
                && address.getUserInfo() == null;
        if (!bare) {
            throw new IllegalArgumentException("a broker's address is a host and a port (was " + address.getHost() + ":"
                    + address.getPort() + address.getPath() + ")");
        }
        return new BrokerAddress(address.getHost(), address.getPort(), ENCRYPTED.contains(scheme));
    }

    /** The form that the clients take. Encryption is the sockets' business, not theirs. */
    String forClient() {
        return "tcp://" + host + ":" + port;
    }
}
