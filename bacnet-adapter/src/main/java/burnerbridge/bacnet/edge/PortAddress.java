package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.PortException.Reason;
import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InterfaceAddress;
import java.net.NetworkInterface;
import java.net.UnknownHostException;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Where the port listens and where its broadcasts go.
 *
 * @param port 0 for any free one
 */
record PortAddress(InetAddress host, int port, InetAddress broadcast) {
    private static final Pattern DOTTED = Pattern.compile("\\d{1,3}(\\.\\d{1,3}){3}");

    /**
     * Finds the broadcast address of a local address.
     *
     * @param broadcast instead of the one of the network interface
     * @throws IOException with a message for people, where this machine has no such address or the
     *     broadcast address cannot be found
     */
    static PortAddress find(String bind, int port, Optional<String> broadcast) throws IOException {
        InetAddress host = dotted(bind);
        if (broadcast.isPresent()) {
            checkIsLocal(host);
            return new PortAddress(host, port, dotted(broadcast.get()));
        }
        if (host.isAnyLocalAddress()) {
            return new PortAddress(host, port, dotted("255.255.255.255"));
        }
        if (host.isLoopbackAddress()) {
            return new PortAddress(host, port, dotted("127.255.255.255"));
        }
        return new PortAddress(host, port, broadcastOf(host));
    }

    /** Whether the socket hears broadcasts too, so that one is enough. */
    boolean isEveryAddress() {
        return host.isAnyLocalAddress();
    }

    private static InetAddress broadcastOf(InetAddress host) throws IOException {
        for (InterfaceAddress address : interfaceOf(host).getInterfaceAddresses()) {
            InetAddress broadcast = address.getBroadcast();
            // In a network of one address the system says 0.0.0.0.
            if (address.getAddress().equals(host) && broadcast != null && !broadcast.isAnyLocalAddress()) {
                return broadcast;
            }
        }
        throw new PortException(
                Reason.NO_ADDRESS,
                "the network interface of " + host.getHostAddress() + " has no broadcast address; state one",
                "its network mask (ip -br address), and bacnet.broadcast in site.yaml");
    }

    private static void checkIsLocal(InetAddress host) throws IOException {
        if (!host.isAnyLocalAddress() && !host.isLoopbackAddress()) {
            interfaceOf(host);
        }
    }

    private static NetworkInterface interfaceOf(InetAddress host) throws IOException {
        NetworkInterface found = NetworkInterface.getByInetAddress(host);
        if (found == null) {
            throw new PortException(
                    Reason.NO_ADDRESS,
                    "no network interface of this machine has the address " + host.getHostAddress(),
                    "the addresses of this machine (ip -br address), and bacnet.bind in site.yaml");
        }
        return found;
    }

    /** Never asks a name server. */
    static InetAddress dotted(String address) throws IOException {
        try {
            if (DOTTED.matcher(address).matches()) {
                InetAddress parsed = InetAddress.getByName(address);
                if (parsed instanceof Inet4Address) {
                    return parsed;
                }
            }
        } catch (UnknownHostException e) {
            throw noAddress(address);
        }
        throw noAddress(address);
    }

    private static PortException noAddress(String address) {
        return new PortException(
                Reason.NOT_AN_ADDRESS, "'" + address + "' is no IPv4 address", "the addresses of bacnet in site.yaml");
    }
}
