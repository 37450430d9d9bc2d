package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.frame.Datagram;
import burnerbridge.bacnet.edge.frame.DropReason;
import burnerbridge.bacnet.edge.frame.FrameJudge;
import burnerbridge.bacnet.edge.frame.ObjectDirectory;
import burnerbridge.bacnet.edge.frame.Verdict;
import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.enums.MaxApduLength;
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
public final class EdgePort extends Network implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(EdgePort.class);
    private static final long JOIN_MILLIS = 1000;

    private final PortSockets sockets;
    private final PortCounters counters = new PortCounters();
    private final LimitedLog trouble;
    private final WaitingRoom waitingRoom = new WaitingRoom();
    private final List<Listener> listeners = new ArrayList<>();
    private volatile @Nullable FrameJudge judge;

    private EdgePort(PortSockets sockets, BridgeClock clock) {
        super(Address.LOCAL_NETWORK);
        this.sockets = sockets;
        this.trouble = new LimitedLog(LOG, clock);
    }

    /**
     * Binds the sockets.
     *
     * @param port 0 for any free one
     * @param broadcast instead of the broadcast address of the network interface
     * @throws IOException with a message for people; nothing stays open then
     */
    public static EdgePort open(String bind, int port, Optional<String> broadcast, BridgeClock clock)
            throws IOException {
        return new EdgePort(PortSockets.open(PortAddress.find(bind, port, broadcast)), clock);
    }

    /** Begins to receive. Called once, when the library is ready for what may pass. */
    public synchronized void listen(ObjectDirectory directory) {
        if (judge != null) {
            throw new IllegalStateException("the port listens already");
        }
        judge = new FrameJudge(directory);
        listeners.add(new Listener("bacnet port " + sockets.place(), sockets.unicast(), false, this::receive));
        if (sockets.broadcast() != null) {
            listeners.add(
                    new Listener("bacnet broadcasts " + sockets.place(), sockets.broadcast(), true, this::receive));
        }
        listeners.forEach(Listener::start);
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

    private void receive(Datagram datagram) {
        FrameJudge present = judge;
        if (present == null
                || sockets.isOwn(datagram.sender())
                || datagram.sender().getPort() == 0
                || !(datagram.sender().getAddress() instanceof Inet4Address)) {
            // Annex J is BACnet over IPv4; an address of 16 octets would be answered at some other host.
            return;
        }
        counters.received(datagram.octets().length());
        Verdict verdict = present.judge(datagram);
        if (verdict instanceof Verdict.Pass pass) {
            pass(pass, datagram);
        } else if (verdict instanceof Verdict.Answer answer) {
            answer(answer, datagram);
        } else if (verdict instanceof Verdict.Drop drop) {
            drop(drop.reason(), datagram);
        }
    }

    private void pass(Verdict.Pass pass, Datagram datagram) {
        if (waitingRoom.isFull()) {
            drop(DropReason.BUSY, datagram);
            return;
        }
        counters.passed();
        handleIncomingData(new ByteQueue(pass.networkMessage().toArray()), mac(pass.source()));
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
        } catch (IOException e) {
            notSent(to.toString(), e);
        }
    }

    private void sendToAll(Octets datagram) {
        try {
            sockets.sendToAll(datagram.toArray());
            counters.sent(datagram.length());
        } catch (IOException e) {
            notSent("the broadcast address", e);
        }
    }

    private void notSent(String to, IOException cause) {
        counters.unsent();
        if (!sockets.unicast().isClosed()) {
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
            sendToAll(FrameJudge.broadcast(message));
        } else {
            send(FrameJudge.unicast(message), station(destination));
        }
    }

    @Override
    protected NPDU handleIncomingDataImpl(ByteQueue queue, OctetString source) throws Exception {
        NPDU message = parseNpduData(queue, source);
        return message.isNetworkMessage() ? message : waitingRoom.seat(message);
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
        try {
            for (Listener listener : listeners) {
                listener.join(JOIN_MILLIS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
