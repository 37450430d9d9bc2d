package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.PortException.Reason;
import java.io.IOException;
import java.net.BindException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;

/**
 * The sockets of the port: one on its address, and one on each broadcast address, since on Linux a socket
 * that is bound to an address hears no broadcasts. Everything leaves from the first.
 *
 * @param port the one that is really bound
 * @param broadcasts those of the network, and the limited ones, which say no network; none where the first
 *     hears all of them
 */
record PortSockets(PortAddress address, int port, DatagramSocket unicast, List<DatagramSocket> broadcasts)
        implements AutoCloseable {
    private static final String LIMITED = "255.255.255.255";

    PortSockets {
        broadcasts = List.copyOf(broadcasts);
    }

    /** Binds all or none. */
    static PortSockets open(PortAddress address) throws IOException {
        DatagramSocket unicast = bind(address.host(), address.port(), false);
        try {
            unicast.setBroadcast(true);
            List<DatagramSocket> broadcasts =
                    address.isEveryAddress() ? List.of() : broadcasts(address, unicast.getLocalPort());
            return new PortSockets(address, unicast.getLocalPort(), unicast, broadcasts);
        } catch (IOException e) {
            unicast.close();
            throw e;
        }
    }

    /** Shared: every BACnet program on this machine wants to hear the broadcasts. */
    private static List<DatagramSocket> broadcasts(PortAddress address, int port) throws IOException {
        DatagramSocket ofNetwork = bind(address.broadcast(), port, true);
        try {
            InetAddress limited = InetAddress.getByName(LIMITED);
            return address.host().isLoopbackAddress() || address.broadcast().equals(limited)
                    ? List.of(ofNetwork)
                    : List.of(ofNetwork, bind(limited, port, true));
        } catch (IOException e) {
            ofNetwork.close();
            throw e;
        }
    }

    private static DatagramSocket bind(InetAddress host, int port, boolean shared) throws IOException {
        DatagramSocket socket = new DatagramSocket(null);
        try {
            socket.setReuseAddress(shared);
            socket.bind(new InetSocketAddress(host, port));
            return socket;
        } catch (IOException e) {
            socket.close();
            throw objection(host, port, e);
        }
    }

    private static PortException objection(InetAddress host, int port, IOException cause) {
        String place = "UDP port " + port + " on " + host.getHostAddress();
        String why = String.valueOf(cause.getMessage());
        boolean taken = cause instanceof BindException && why.contains("already in use");
        PortException objection = taken
                ? new PortException(
                        Reason.TAKEN,
                        place + " is taken by another program",
                        "who has it: ss -ulpn 'sport = :" + port + "', as root")
                : new PortException(
                        Reason.NOT_ALLOWED,
                        place + " cannot be opened: " + why,
                        "bacnet.bind, bacnet.broadcast and bacnet.port in site.yaml");
        objection.initCause(cause);
        return objection;
    }

    /** Where the port is, as people write it: {@code 127.0.0.1:47808}. */
    String place() {
        return address.host().getHostAddress() + ":" + port;
    }

    void send(byte[] datagram, InetSocketAddress to) throws IOException {
        unicast.send(new DatagramPacket(datagram, datagram.length, to));
    }

    void sendToAll(byte[] datagram) throws IOException {
        send(datagram, new InetSocketAddress(address.broadcast(), port));
    }

    @Override
    public void close() {
        unicast.close();
        broadcasts.forEach(DatagramSocket::close);
    }
}
