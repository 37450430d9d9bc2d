package burnerbridge.bacnet.outside;

import java.net.DatagramSocket;
import java.net.SocketException;

/** A UDP port that nobody has at the moment. */
public final class FreePort {
    private FreePort() {}

    public static int udp() {
        try (DatagramSocket socket = new DatagramSocket(0)) {
            return socket.getLocalPort();
        } catch (SocketException e) {
            throw new AssertionError(e);
        }
    }
}
