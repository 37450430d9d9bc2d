package burnerbridge.daemon;

import java.io.IOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
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

    private final DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress());
    private int invokeId;

    HandMadeStation(int bridgePort) throws IOException {
        socket.setSoTimeout(PATIENCE_MILLIS);
        socket.connect(new InetSocketAddress("127.0.0.1", bridgePort));
    }

    int port() {
        return socket.getLocalPort();
    }

    /**
     * @param apdu the octets of a confirmed request in hexadecimal, with %02X for its invoke id
     * @return those of the answer; empty where none came in time
     */
    String ask(String apdu) throws IOException {
        invokeId = invokeId % 255 + 1;
        byte[] octets = HexFormat.of()
                .parseHex(String.format(Locale.ROOT, apdu, invokeId).replace(" ", ""));
        byte[] datagram = new byte[octets.length + 6];
        System.arraycopy(new byte[] {(byte) 0x81, 0x0A, 0, (byte) datagram.length, 1, 4}, 0, datagram, 0, 6);
        System.arraycopy(octets, 0, datagram, 6, octets.length);
        DatagramPacket reply = new DatagramPacket(new byte[2048], 2048);
        try {
            socket.send(new DatagramPacket(datagram, datagram.length));
            socket.receive(reply);
        } catch (SocketTimeoutException | PortUnreachableException e) {
            return "";
        }
        return HexFormat.of().formatHex(Arrays.copyOfRange(reply.getData(), 6, reply.getLength()));
    }

    /** Asks for boiler-1.load-limit at priority 8. */
    String write(float value) throws IOException {
        String real = String.format(Locale.ROOT, "%08X", Float.floatToIntBits(value));
        return ask("00 04 %02X 0F " + REQUEST_OBJECT + " 19 55 3E 44 " + real + " 3F 49 08");
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
