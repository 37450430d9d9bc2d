package burnerbridge.bacnet.edge.watch;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * What the port notices: other devices with our instance, whether broadcasts arrive, sends that fail, and its own place
 * on this machine. Told by the port's threads, stepped by one; safe for any number of threads.
 */
public final class NetworkWatch implements HealthSource, MetricSource {
    private static final Metric NAMESAKES = Metric.gauge(
            "burner_bridge_bacnet_instance_doubles",
            "Other devices with this bridge's device instance that were heard lately; at most " + Namesakes.MOST
                    + " are remembered.");

    private final BridgeClock clock;
    private final OwnPlace ownPlace;
    private final Namesakes namesakes;
    private final Broadcasts broadcasts;
    private final Sends sends;
    private final Probe probe = new Probe();

    /**
     * @param name of the port in messages: {@code bacnet 127.0.0.1:47808}
     * @param host the address that it is bound to, 0.0.0.0 for all
     * @param foreign whether it has broadcasts from a broadcast management device of another network
     */
    public NetworkWatch(
            String name, InetAddress host, int port, InetAddress broadcast, boolean foreign, BridgeClock clock) {
        this(name, host, port, broadcast, foreign, clock, LocalAddress::ofThisMachine);
    }

    NetworkWatch(
            String name,
            InetAddress host,
            int port,
            InetAddress broadcast,
            boolean foreign,
            BridgeClock clock,
            LocalAddress.Source addresses) {
        Stamp now = clock.now();
        this.clock = clock;
        this.ownPlace = new OwnPlace(name, host, port, addresses, now);
        this.namesakes = new Namesakes(name);
        this.broadcasts = new Broadcasts(name, broadcast, foreign, ownPlace, now);
        this.sends = new Sends(name);
    }

    /** Whether a datagram is one of our own that came back. */
    public boolean isOwn(InetSocketAddress sender) {
        return ownPlace.isOwn(sender);
    }

    /** A datagram of our own came back. */
    public void returned() {
        broadcasts.returned(clock.ticks());
    }

    /** A datagram of another station came, to everybody or to us; one of this machine tells nothing of the network. */
    public void heard(InetSocketAddress from, boolean toAll) {
        if (!ownPlace.isOfThisMachine(from.getAddress())) {
            broadcasts.heard(from.getAddress(), toAll, clock.now());
        }
    }

    /** We have told everybody of us: now the question who else has our instance is to be asked, to everybody. */
    public Octets firstQuestion(int instance) {
        return probe.begin(instance, clock.ticks());
    }

    /** The question again, where it is due. */
    public Optional<Octets> dueQuestion() {
        return probe.due(clock.ticks());
    }

    /** An I-Am with our device instance came; it may be our own, by a way around. */
    public void heardOwnInstance(Peer from, int instance) {
        if (!ownPlace.isOwn(from)) {
            namesakes.heard(from, instance, clock.now());
        }
    }

    /** The system took a datagram of ours to one station. */
    public void sent() {
        sends.taken();
    }

    /**
     * The system took a datagram of ours to everybody.
     *
     * @param at when it was given to it, before it can have come back
     */
    public void sentToAll(long at) {
        sends.taken();
        broadcasts.sent(at);
    }

    /** The system did not take a datagram of ours. */
    public void unsent(String to, String why) {
        sends.failed(to, why, clock.now());
    }

    /** Looks at what time alone changes. To be called every second or so, by one thread. */
    public void step() {
        Stamp now = clock.now();
        ownPlace.step(now);
        namesakes.step(now);
        broadcasts.step(now);
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        ownPlace.tell(troubles);
        if (!ownPlace.isWrong()) {
            sends.tell(troubles, clock.ticks());
            broadcasts.tell(troubles);
        }
        namesakes.tell(troubles);
    }

    @Override
    public void measure(MetricSink sink) {
        sink.sample(NAMESAKES, namesakes.count());
        broadcasts.measure(sink, clock.ticks());
    }
}
