package burnerbridge.simulator.demo;

import burnerbridge.simulator.controller.Quillmere;
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
 * @param boilerHouse TCP, of the device server before the line of the two hot-water boilers
 * @param annex TCP, of the steam boiler
 * @param secondDoor TCP, of all controllers
 * @param mqtt TCP, of the broker
 * @param bacnet UDP, of the bridge
 */
record Ports(int boilerHouse, int annex, int secondDoor, int mqtt, int bacnet) {
    static final InetAddress HOST = InetAddress.getLoopbackAddress();
    /** Those of the example site, and one more. */
    static final Ports USUAL = new Ports(7001, 1502, 1503, 1883, 47808);
    /** Any that are free. */
    static final Ports ANY = new Ports(0, 0, 0, 0, 0);

    /** These where they are free, others that are free in place of the rest. */
    Ports orFreeOnes() throws IOException {
        return new Ports(tcp(boilerHouse), tcp(annex), tcp(secondDoor), tcp(mqtt), udp(bacnet));
    }

    Quillmere.Places ofPlant() {
        return new Quillmere.Places(HOST, boilerHouse, annex, secondDoor);
    }

    /** A sentence for each port that differs from these. */
    List<String> differencesTo(Ports wanted) {
        List<String> sentences = new ArrayList<>();
        tell(sentences, "TCP", wanted.boilerHouse, "the boiler house", boilerHouse);
        tell(sentences, "TCP", wanted.annex, "the annex", annex);
        tell(sentences, "TCP", wanted.secondDoor, "the second door", secondDoor);
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
