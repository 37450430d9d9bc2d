package burnerbridge.simulator.demo;

import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.util.ArrayList;
import java.util.List;

/**
 * The loopback ports of a demo.
 *
 * @param modbus TCP, of the burner controller
 * @param mqtt TCP, of the broker
 * @param bacnet UDP, of the bridge
 */
record Ports(int modbus, int mqtt, int bacnet) {
    static final InetAddress HOST = InetAddress.getLoopbackAddress();
    /** Those of the example site. */
    static final Ports USUAL = new Ports(1502, 1883, 47808);

    /** These where they are free, others that are free in place of the rest. */
    Ports orFreeOnes() throws IOException {
        return new Ports(tcp(modbus), tcp(mqtt), udp(bacnet));
    }

    /** A sentence for each port that differs from these. */
    List<String> differencesTo(Ports wanted) {
        List<String> sentences = new ArrayList<>();
        tell(sentences, "TCP", wanted.modbus, "the burner controller", modbus);
        tell(sentences, "TCP", wanted.mqtt, "the broker", mqtt);
        tell(sentences, "UDP", wanted.bacnet, "BACnet", bacnet);
        return sentences;
    }

    private static void tell(List<String> sentences, String protocol, int wanted, String who, int chosen) {
        if (wanted != chosen) {
            sentences.add(protocol + " port " + wanted + " is taken: " + who + " uses " + chosen);
        }
    }

    private static int tcp(int wanted) throws IOException {
        try {
            return bindTcp(wanted);
        } catch (IOException taken) {
            return bindTcp(0);
        }
    }

    private static int bindTcp(int port) throws IOException {
        try (ServerSocket socket = new ServerSocket()) {
            socket.setReuseAddress(true);
            socket.bind(new InetSocketAddress(HOST, port));
            return socket.getLocalPort();
        }
    }

    private static int udp(int wanted) throws IOException {
        try {
            return bindUdp(wanted);
        } catch (IOException taken) {
            return bindUdp(0);
        }
    }

    private static int bindUdp(int port) throws IOException {
        try (DatagramSocket socket = new DatagramSocket(new InetSocketAddress(HOST, port))) {
            return socket.getLocalPort();
        }
    }
}
