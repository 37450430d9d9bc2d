package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.frame.Assemblies;
import burnerbridge.bacnet.edge.frame.Datagram;
import burnerbridge.bacnet.edge.frame.FrameJudge;
import burnerbridge.bacnet.edge.frame.Verdict;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.ObjectDirectory;
import burnerbridge.bacnet.edge.service.WriteDoor;
import burnerbridge.bacnet.edge.watch.NetworkWatch;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.enums.MaxApduLength;
import com.serotonin.bacnet4j.npdu.MessageValidationException;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.npdu.Network;
import com.serotonin.bacnet4j.npdu.NetworkIdentifier;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A BACnet/IP port (ASHRAE 135, Annex J) that lets nothing through to the library which it has not
 * understood whole. It owns the sockets: opened by {@link #open}, so that a port that is taken shows before
 * anything else is made; read from {@link #listen} on; closed by {@link #close}.
 *
 * <p>On 0.0.0.0 it cannot be told whether a datagram came to a broadcast address, so there the function of
 * the datagram alone decides whether it was for all.
 */
public final class EdgePort extends Network implements HealthSource, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(EdgePort.class);
    private static final long JOIN_MILLIS = 1000;
    private static final long STEP = 1_000_000_000L;
    private static final Verdict NOISE = new Verdict.Drop(DropReason.NOT_BACNET_IP);

    private final PortSettings settings;
    private final PortSockets sockets;
    private final BridgeClock clock;
    private final PortCounters counters = new PortCounters();
    private final LimitedLog trouble;
    private final RequestQueue requests;
    private final Flood flood;
    private final NetworkWatch watch;
    private final Optional<ForeignDevice> foreign;
    private final Optional<Renewal> renewal;
    private final List<Listener> listeners = new ArrayList<>();
    private volatile @Nullable Judges judges;
    private volatile Runnable announce = () -> {};
    private long nextStep;

    private record Judges(FrameJudge frames, Assemblies segments, int instance) {}

    private EdgePort(PortSettings settings, PortSockets sockets, BridgeClock clock) throws IOException {
        super(Address.LOCAL_NETWORK);
        this.settings = settings;
        this.sockets = sockets;
        this.clock = clock;
        this.trouble = new LimitedLog(LOG, clock);
        this.requests = new RequestQueue(settings.limits(), clock);
        this.flood = new Flood(settings.limits(), clock.ticks());
        this.foreign = foreignDevice();
        this.watch = new NetworkWatch(
                "bacnet " + sockets.place(),
                sockets.address().host(),
                sockets.port(),
                sockets.address().broadcast(),
                foreign.isPresent(),
                clock);
        this.nextStep = clock.ticks();
        this.renewal = foreign.map(device -> new Renewal(device, clock));
    }

    private Optional<ForeignDevice> foreignDevice() throws IOException {
        if (settings.registration().isEmpty()) {
            return Optional.empty();
        }
        PortSettings.Registration wanted = settings.registration().get();
        InetSocketAddress manager = new InetSocketAddress(PortAddress.dotted(wanted.host()), wanted.port());
        return Optional.of(new ForeignDevice(manager, wanted.seconds(), this::send, clock.now()));
    }

    /**
     * Binds the sockets.
     *
     * @throws IOException with a message for people; nothing stays open then
     */
    public static EdgePort open(PortSettings settings, BridgeClock clock) throws IOException {
        PortSockets sockets =
                PortSockets.open(PortAddress.find(settings.bind(), settings.port(), settings.broadcast()));
        try {
            return new EdgePort(settings, sockets, clock);
        } catch (IOException e) {
            sockets.close();
            throw e;
        }
    }

    /**
     * Begins to receive. Called once, when the library is ready for what may pass.
     *
     * @param door what decides on writes
     * @param announce tells everybody of the device; done when broadcasts reach anybody: at once, or each time that
     *     the port was registered elsewhere and had not been before
     */
    public synchronized void listen(ObjectDirectory directory, WriteDoor door, Runnable announce) {
        if (judges != null) {
            throw new IllegalStateException("the port listens already");
        }
        int instance = directory.deviceInstance();
        this.announce = () -> {
            announce.run();
            sendQuestion(watch.firstQuestion(instance));
        };
        FrameJudge frames = new FrameJudge(directory, door, clock, settings.endlessSubscriptions());
        judges = new Judges(frames, new Assemblies(frames), instance);
        listeners.add(new Listener("bacnet port " + sockets.place(), sockets.unicast(), false, this::receive));
        sockets.broadcasts()
                .forEach(socket -> listeners.add(new Listener(
                        "bacnet broadcasts " + socket.getLocalAddress().getHostAddress() + ":" + sockets.port(),
                        socket,
                        true,
                        this::receive)));
        listeners.forEach(Listener::start);
        renewal.ifPresentOrElse(Renewal::start, this.announce);
    }

    /**
     * Looks at what time alone changes, and asks now and then whether another device has our instance. To be called
     * every second or more often, by one thread; most calls do nothing.
     */
    public void step() {
        long now = clock.ticks();
        if (now - nextStep < 0) {
            return;
        }
        nextStep = now + STEP;
        watch.step();
        if (judges != null && reachesEverybody()) {
            watch.dueQuestion().ifPresent(this::sendQuestion);
        }
    }

    private boolean reachesEverybody() {
        return foreign.isEmpty() || foreign.get().state() == ForeignDevice.State.REGISTERED;
    }

    private void sendQuestion(Octets question) {
        distribute(FrameJudge.toEveryNetwork(question));
    }

    /** What passed and waits to be worked on. */
    public RequestQueue requests() {
        return requests;
    }

    /** How it stands with the registration elsewhere; empty where none is wanted. */
    public Optional<ForeignDevice.State> foreignDeviceState() {
        return foreign.map(ForeignDevice::state);
    }

    /** The port that is really bound. */
    public int port() {
        return sockets.port();
    }

    /** Where the port is, as people write it: {@code 127.0.0.1:47808}. */
    public String place() {
        return sockets.place();
    }

    public PortCounters counters() {
        return counters;
    }

    /** What the port notices of its network. */
    public NetworkWatch watch() {
        return watch;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        foreign.ifPresent(device -> device.tell(troubles));
        watch.tell(troubles);
    }

    private void receive(Datagram datagram) {
        Judges present = judges;
        if (present == null
                || datagram.sender().getPort() == 0
                || !(datagram.sender().getAddress() instanceof Inet4Address)) {
            // Annex J is BACnet over IPv4; an address of 16 octets would be answered at some other host.
            return;
        }
        if (watch.isOwn(datagram.sender())) {
            watch.returned();
            return;
        }
        counters.received(datagram.octets().length());
        if (flood.isTooMuch(datagram.sender().getAddress(), clock.ticks())) {
            drop(DropReason.FLOOD, datagram);
            return;
        }
        Verdict verdict = present.frames().judge(datagram);
        if (!verdict.equals(NOISE)) {
            watch.heard(datagram.sender(), isToAll(datagram));
        }
        if (verdict instanceof Verdict.Part part) {
            present.segments().take(part, clock.ticks()).forEach(next -> follow(next, datagram));
        } else {
            follow(verdict, datagram);
        }
    }

    private void follow(Verdict verdict, Datagram datagram) {
        if (verdict instanceof Verdict.Pass pass) {
            pass(pass, datagram);
        } else if (verdict instanceof Verdict.Answer answer) {
            answer(answer, datagram);
        } else if (verdict instanceof Verdict.Drop drop) {
            drop(drop.reason(), datagram);
        } else if (verdict instanceof Verdict.OwnInstance same) {
            drop(DropReason.OWN_INSTANCE, datagram);
            Judges present = judges;
            if (present != null) {
                watch.heardOwnInstance(same.from(), present.instance());
            }
        } else if (verdict instanceof Verdict.Result result && !isForForeignDevice(result, datagram)) {
            drop(DropReason.LINK_RESULT, datagram);
        }
    }

    /** Whether it came as a broadcast of IP; on 0.0.0.0 that is not told, so there its function decides. */
    private boolean isToAll(Datagram datagram) {
        return datagram.toAll()
                || sockets.address().isEveryAddress() && FrameJudge.isForAll(datagram.octets(), foreign.isEmpty());
    }

    private boolean isForForeignDevice(Verdict.Result result, Datagram datagram) {
        return foreign.isPresent() && isAnswerTo(foreign.get(), result, datagram);
    }

    private boolean isAnswerTo(ForeignDevice device, Verdict.Result result, Datagram datagram) {
        boolean before = device.state() == ForeignDevice.State.REGISTERED;
        boolean answer = device.answered(result.code(), datagram.sender(), clock.now());
        if (!before && device.state() == ForeignDevice.State.REGISTERED) {
            announce.run();
        }
        return answer;
    }

    private void pass(Verdict.Pass pass, Datagram datagram) {
        try {
            NPDU message = parseNpduData(new ByteQueue(pass.networkMessage().toArray()), mac(pass.source()));
            if (pass.first() ? requests.offerFirst(message) : requests.offer(message)) {
                counters.passed();
            } else {
                drop(DropReason.BUSY, datagram);
            }
        } catch (MessageValidationException e) {
            drop(DropReason.NETWORK_VERSION, datagram);
        }
    }

    private void answer(Verdict.Answer answer, Datagram datagram) {
        counters.answered(answer.kind());
        if (answer.kind().isRefusal()) {
            trouble.tell(
                    answer.kind(),
                    () -> place() + ": answered " + datagram.sender() + " with "
                            + answer.kind().word() + " " + answer.datagram() + " for "
                            + datagram.octets().excerpt());
        }
        send(answer.datagram(), datagram.sender());
    }

    private void drop(DropReason reason, Datagram datagram) {
        counters.dropped(reason);
        if (!reason.isOrdinary()) {
            trouble.tell(
                    reason,
                    () -> place() + ": dropped a datagram of " + datagram.sender() + ": " + reason.word() + ": "
                            + datagram.octets().excerpt());
        }
    }

    private void send(Octets datagram, InetSocketAddress to) {
        try {
            sockets.send(datagram.toArray(), to);
            counters.sent(datagram.length());
            watch.sent();
        } catch (IOException e) {
            notSent(to.toString(), e);
        }
    }

    private void sendToAll(Octets datagram) {
        long at = clock.ticks();
        try {
            sockets.sendToAll(datagram.toArray());
            counters.sent(datagram.length());
            watch.sentToAll(at);
        } catch (IOException e) {
            notSent("the broadcast address", e);
        }
    }

    private void notSent(String to, IOException cause) {
        counters.unsent();
        if (!sockets.unicast().isClosed()) {
            watch.unsent(to, String.valueOf(cause.getMessage()));
            trouble.tell(IOException.class, () -> place() + ": cannot send to " + to + ": " + cause.getMessage());
        }
    }

    @Override
    public void sendNPDU(
            Address recipient, @Nullable OctetString router, ByteQueue npdu, boolean broadcast, boolean expectsReply) {
        byte[] bytes = npdu.popAll();
        Octets message = Octets.copyOf(bytes, bytes.length);
        OctetString destination = getDestination(recipient, router);
        if (broadcast || recipient.isGlobal() || destination.equals(getBroadcastMAC())) {
            distribute(message);
        } else {
            send(FrameJudge.unicast(message), station(destination));
        }
    }

    /** Sends a network message to everybody: as a broadcast, or by way of the broadcast management device. */
    private void distribute(Octets message) {
        if (foreign.isPresent()) {
            send(FrameJudge.distributed(message), foreign.get().manager());
        } else {
            sendToAll(FrameJudge.broadcast(message));
        }
    }

    /** Nothing comes this way: what passes is put into the queue. */
    @Override
    protected NPDU handleIncomingDataImpl(ByteQueue queue, OctetString source) throws Exception {
        return parseNpduData(queue, source);
    }

    /** The six octets by which BACnet knows a station of this network (J.1.2). */
    private static OctetString mac(InetSocketAddress station) {
        byte[] host = station.getAddress().getAddress();
        int port = station.getPort();
        return new OctetString(new byte[] {host[0], host[1], host[2], host[3], (byte) (port >> 8), (byte) port});
    }

    private static InetSocketAddress station(OctetString mac) {
        byte[] six = mac.getBytes();
        try {
            InetAddress host = InetAddress.getByAddress(new byte[] {six[0], six[1], six[2], six[3]});
            return new InetSocketAddress(host, (six[4] & 0xFF) << 8 | (six[5] & 0xFF));
        } catch (IOException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** The station of this port. */
    private OctetString ownMac() {
        return mac(new InetSocketAddress(sockets.address().host(), port()));
    }

    @Override
    protected OctetString getBroadcastMAC() {
        return mac(new InetSocketAddress(sockets.address().broadcast(), port()));
    }

    @Override
    public Address[] getAllLocalAddresses() {
        return new Address[] {getLoopbackAddress()};
    }

    @Override
    public Address getLoopbackAddress() {
        return new Address(ownMac());
    }

    @Override
    public NetworkIdentifier getNetworkIdentifier() {
        String id = place();
        return new NetworkIdentifier() {
            @Override
            public String getIdString() {
                return id;
            }
        };
    }

    @Override
    public MaxApduLength getMaxApduLength() {
        return MaxApduLength.UP_TO_1476;
    }

    @Override
    public long getBytesOut() {
        return counters.octetsOut();
    }

    @Override
    public long getBytesIn() {
        return counters.octetsIn();
    }

    @Override
    public void terminate() {
        close();
    }

    /** Closes the sockets and waits, at most a second a thread, for who reads them. */
    @Override
    public void close() {
        sockets.close();
        renewal.ifPresent(Renewal::close);
        try {
            for (Listener listener : listeners) {
                listener.join(JOIN_MILLIS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
