package burnerbridge.bacnet.edge.watch;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.health.Trouble;
import burnerbridge.model.HandClock;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A watch at 10.77.0.1/24, port 47808, with a clock and an interface of the test's. */
final class NetworkWatchRig {
    static final int INSTANCE = 3;
    static final int PORT = 47808;

    final HandClock clock = new HandClock();
    final List<LocalAddress> addresses = new ArrayList<>();
    final NetworkWatch watch;

    NetworkWatchRig() {
        this("10.77.0.1", 24, false);
    }

    NetworkWatchRig(String host, int prefix, boolean foreign) {
        addresses.add(new LocalAddress(ip("127.0.0.1"), 8, "lo", true));
        addresses.add(new LocalAddress(ip(host.equals("0.0.0.0") ? "10.77.0.1" : host), prefix, "cable", true));
        watch = new NetworkWatch(
                "bacnet " + host + ":" + PORT,
                ip(host),
                PORT,
                ip("10.77.0.255"),
                foreign,
                clock,
                () -> List.copyOf(addresses));
    }

    static InetAddress ip(String text) {
        try {
            return InetAddress.getByName(text);
        } catch (UnknownHostException e) {
            throw new AssertionError(e);
        }
    }

    static InetSocketAddress station(String host, int port) {
        return new InetSocketAddress(ip(host), port);
    }

    static Peer peer(String host, int port) {
        return behind(host, port, 0, Octets.of());
    }

    static Peer behind(String router, int port, int network, Octets remote) {
        byte[] four = ip(router).getAddress();
        int address = (four[0] & 0xFF) << 24 | (four[1] & 0xFF) << 16 | (four[2] & 0xFF) << 8 | (four[3] & 0xFF);
        return new Peer(address, port, network, remote);
    }

    /** Lets time pass as the port does, in steps of a second at most. */
    void pass(Duration time) {
        for (long left = time.toSeconds(); left > 0; left--) {
            clock.forward(Duration.ofSeconds(1));
            watch.step();
        }
    }

    /** A broadcast of ours that comes back, as it does on any machine. */
    void broadcast() {
        watch.sentToAll(clock.ticks());
        watch.returned();
    }

    List<Trouble> troubles() {
        List<Trouble> troubles = new ArrayList<>();
        watch.tell(troubles::add);
        return troubles;
    }

    List<String> told() {
        return troubles().stream()
                .map(trouble -> trouble.weight().word() + " " + trouble.place().word() + " " + trouble.sentence())
                .toList();
    }

    /** The samples, by name and labels. */
    Map<String, Double> figures() {
        Map<String, Double> figures = new HashMap<>();
        watch.measure((metric, value, labels) -> {
            if (figures.put(metric.name() + List.of(labels), value) != null
                    || labels.length != metric.labels().size()) {
                throw new AssertionError("twice, or not as labelled: " + metric.name() + List.of(labels));
            }
        });
        return figures;
    }
}
