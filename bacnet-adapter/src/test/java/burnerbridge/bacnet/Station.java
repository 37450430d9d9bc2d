package burnerbridge.bacnet;

import burnerbridge.bacnet.edge.coding.Hex;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetSocketAddress;
import java.net.SocketTimeoutException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;

/** A hand-made BACnet/IP station that sends and receives plain octets. Shares no code with what it tests. */
public final class Station implements AutoCloseable {
    /** So long an answer may take on a busy machine. */
    public static final int PATIENCE_MILLIS = 20_000;

    private final DatagramSocket socket;
    private final InetSocketAddress device;

    private Station(DatagramSocket socket, InetSocketAddress device) {
        this.socket = socket;
        this.device = device;
    }

    /** A station with an address of its own that talks to the device at a port of 127.0.0.1. */
    public static Station talkingTo(int port) {
        return bound("127.0.0.1", 0, "127.0.0.1", port);
    }

    /** A station of another host, as far as each address of loopback is one. */
    public static Station ofHost(String own, int port) {
        return bound(own, 0, "127.0.0.1", port);
    }

    /** The same station, talking to a device at another port of 127.0.0.1. */
    public Station answering(int port) {
        return new Station(socket, new InetSocketAddress("127.0.0.1", port));
    }

    /** A station that hears what a device broadcasts on loopback. */
    public static Station listeningToBroadcasts(int port) {
        return bound("127.255.255.255", port, "127.255.255.255", port);
    }

    /** A station with an address of its own that sends to all. */
    public static Station broadcasting(int port) {
        return bound("127.0.0.1", 0, "127.255.255.255", port);
    }

    private static Station bound(String own, int ownPort, String device, int port) {
        try {
            DatagramSocket socket = new DatagramSocket(null);
            socket.setReuseAddress(ownPort != 0);
            socket.setBroadcast(true);
            socket.setReceiveBufferSize(4 << 20);
            socket.bind(new InetSocketAddress(own, ownPort));
            return new Station(socket, new InetSocketAddress(device, port));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public int port() {
        return socket.getLocalPort();
    }

    /** Sends a whole datagram. */
    public void sendRaw(byte[] datagram) {
        try {
            socket.send(new DatagramPacket(datagram, datagram.length, device));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Sends the network layer's octets by a unicast. */
    public void sendNetwork(byte[] npdu) {
        sendRaw(framed(0x0A, npdu));
    }

    /** Sends the application layer's octets, expecting a reply. */
    public void send(byte[] apdu) {
        sendNetwork(concat(new byte[] {1, 4}, apdu));
    }

    public void send(String apdu) {
        send(Hex.bytes(apdu));
    }

    public static byte[] framed(int function, byte[] npdu) {
        int length = npdu.length + 4;
        return concat(new byte[] {(byte) 0x81, (byte) function, (byte) (length >> 8), (byte) length}, npdu);
    }

    public static byte[] concat(byte[] first, byte[] second) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(first);
        out.writeBytes(second);
        return out.toByteArray();
    }

    /** The next datagram in hexadecimal; empty where none comes in time. */
    public Optional<String> hear(int millis) {
        try {
            socket.setSoTimeout(millis);
            DatagramPacket packet = new DatagramPacket(new byte[2048], 2048);
            socket.receive(packet);
            byte[] datagram = Arrays.copyOf(packet.getData(), packet.getLength());
            return Optional.of(HexFormat.ofDelimiter(" ").withUpperCase().formatHex(datagram));
        } catch (SocketTimeoutException e) {
            return Optional.empty();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The application layer's octets of the next datagram, which must be plain unicast. */
    public String hearApplication() {
        String datagram = hear(PATIENCE_MILLIS).orElseThrow(() -> new AssertionError("no datagram came"));
        byte[] bytes = Hex.bytes(datagram);
        int length = (bytes[2] & 0xFF) << 8 | (bytes[3] & 0xFF);
        if (!datagram.startsWith("81 0A") || bytes[4] != 1 || (bytes[5] & 0xFB) != 0 || length != bytes.length) {
            throw new AssertionError("not a plain unicast: " + datagram);
        }
        return datagram.substring(18);
    }

    /** Sends a request and gives the reply. */
    public String ask(String apdu) {
        send(apdu);
        return hearApplication();
    }

    /** Throws away what has come so far. */
    public void forget() {
        Optional<String> heard = hear(1);
        while (heard.isPresent()) {
            heard = hear(1);
        }
    }

    @Override
    public void close() {
        socket.close();
    }
}
