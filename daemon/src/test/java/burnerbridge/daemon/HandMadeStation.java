package burnerbridge.daemon;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetSocketAddress;
import java.net.NoRouteToHostException;
import java.net.PortUnreachableException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;

/** A station on BACnet/IP whose requests are made by hand, and which waits a while for each answer. */
final class HandMadeStation implements AutoCloseable {
    /** Of boiler-1.load-limit-request on the example site, an Analog Value. */
    private static final String REQUEST_OBJECT = "0C 00 80 04 60";

    private static final int PATIENCE_MILLIS = 5_000;
    /** Octets before the application layer. */
    private static final int HEAD = 6;

    private final DatagramSocket socket;
    private int invokeId;

    /** On loopback, like the bridge. */
    HandMadeStation(int bridgePort) throws IOException {
        this(new InetSocketAddress("127.0.0.1", 0), new InetSocketAddress("127.0.0.1", bridgePort), PATIENCE_MILLIS);
    }

    /** @param patienceMillis how long it waits for an answer */
    HandMadeStation(InetSocketAddress own, InetSocketAddress bridge, int patienceMillis) throws IOException {
        socket = new DatagramSocket(own);
        socket.setSoTimeout(patienceMillis);
        socket.connect(bridge);
    }

    int port() {
        return socket.getLocalPort();
    }

    /**
     * @param apdu the octets of a confirmed request in hexadecimal, with %02X for its invoke id
     * @return those of the answer; empty where none came in time
     */
    String ask(String apdu) throws IOException {
        byte[] octets = HexFormat.of()
                .parseHex(String.format(Locale.ROOT, apdu, nextInvokeId()).replace(" ", ""));
        return HexFormat.of().formatHex(ask(octets));
    }

    int nextInvokeId() {
        invokeId = invokeId % 255 + 1;
        return invokeId;
    }

    /**
     * @param apdu a request; what comes as an answer to an earlier one is passed over
     * @return the octets of the answer; none where it did not come in time
     */
    byte[] ask(byte[] apdu) throws IOException {
        byte[] datagram = new byte[apdu.length + HEAD];
        byte[] head = {(byte) 0x81, 0x0A, (byte) (datagram.length >> 8), (byte) datagram.length, 1, 4};
        System.arraycopy(head, 0, datagram, 0, HEAD);
        System.arraycopy(apdu, 0, datagram, HEAD, apdu.length);
        DatagramPacket reply = new DatagramPacket(new byte[2048], 2048);
        try {
            socket.send(new DatagramPacket(datagram, datagram.length));
            do {
                socket.receive(reply);
            } while (reply.getData()[HEAD + 1] != apdu[2]);
        } catch (SocketTimeoutException | PortUnreachableException | NoRouteToHostException e) {
            return new byte[0];
        }
        return Arrays.copyOfRange(reply.getData(), HEAD, reply.getLength());
    }

    /** Asks for boiler-1.load-limit at priority 8. */
    String write(float value) throws IOException {
        return write(value, 8);
    }

    /** Asks for boiler-1.load-limit. */
    String write(float value, int priority) throws IOException {
        return put(String.format(Locale.ROOT, "44 %08X", Float.floatToIntBits(value)), priority);
    }

    /** Gives a slot of boiler-1.load-limit up. */
    String relinquish(int priority) throws IOException {
        return put("00", priority);
    }

    private String put(String value, int priority) throws IOException {
        return ask("00 04 %02X 0F " + REQUEST_OBJECT + " 19 55 3E " + value + " 3F 49 "
                + String.format(Locale.ROOT, "%02X", priority));
    }

    String description() throws IOException {
        return new String(
                HexFormat.of().parseHex(ask("02 75 %02X 0C " + REQUEST_OBJECT + " 19 1C")), StandardCharsets.UTF_8);
    }

    @Override
    public void close() {
        socket.close();
    }
}
