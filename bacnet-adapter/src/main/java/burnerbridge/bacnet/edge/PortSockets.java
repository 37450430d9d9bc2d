package burnerbridge.bacnet.edge;

import java.io.IOException;
import java.net.BindException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import org.jspecify.annotations.Nullable;

/**
 * The sockets of the port: one on its address, and one on the broadcast address, since on Linux a socket
 * that is bound to an address hears no broadcasts. Everything leaves from the first.
 *
 * @param port the one that is really bound
 * @param broadcast null where the first hears broadcasts too
 */
record PortSockets(
        PortAddress address,
        int port,
        DatagramSocket unicast,
        @Nullable DatagramSocket broadcast) implements AutoCloseable {

    /** Binds all or none. */
    static PortSockets open(PortAddress address) throws IOException {
        DatagramSocket unicast = bind(address.host(), address.port(), false);
        try {
            unicast.setBroadcast(true);
            // Shared: every BACnet program on this machine wants to hear the broadcasts.
            DatagramSocket broadcast =
                    address.isEveryAddress() ? null : bind(address.broadcast(), unicast.getLocalPort(), true);
            return new PortSockets(address, unicast.getLocalPort(), unicast, broadcast);
        } catch (IOException e) {
            unicast.close();
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
            throw new IOException(objection(host, port, e), e);
        }
    }

    private static String objection(InetAddress host, int port, IOException cause) {
        String place = "UDP port " + port + " on " + host.getHostAddress();
        String why = String.valueOf(cause.getMessage());
        boolean taken = cause instanceof BindException && why.contains("already in use");
        return taken ? place + " is taken by another program" : place + " cannot be opened: " + why;
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

    /** Whether a datagram is one of our own broadcasts; on 0.0.0.0 not told, but none of those passes anyway. */
    boolean isOwn(InetSocketAddress sender) {
        return sender.getPort() == port && sender.getAddress().equals(address.host());
    }

    @Override
    public void close() {
        unicast.close();
        if (broadcast != null) {
            broadcast.close();
        }
    }
}
