package burnerbridge.bacnet.exchange;

import burnerbridge.bacnet.cov.Post;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.edge.RequestQueue;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.VitalThread;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.ResponseConsumer;
import com.serotonin.bacnet4j.ServiceFuture;
import com.serotonin.bacnet4j.apdu.APDU;
import com.serotonin.bacnet4j.apdu.Abort;
import com.serotonin.bacnet4j.apdu.AckAPDU;
import com.serotonin.bacnet4j.apdu.ConfirmedRequest;
import com.serotonin.bacnet4j.apdu.SegmentACK;
import com.serotonin.bacnet4j.apdu.SimpleACK;
import com.serotonin.bacnet4j.apdu.UnconfirmedRequest;
import com.serotonin.bacnet4j.exception.BACnetException;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.npdu.Network;
import com.serotonin.bacnet4j.npdu.NetworkIdentifier;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.service.unconfirmed.UnconfirmedRequestService;
import com.serotonin.bacnet4j.transport.Transport;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.enumerated.Segmentation;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.Lock;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The application layer of a device that answers (ASHRAE 135, 5.4), in the place of the library's: that one
 * sleeps up to 50 ms on a lost wake-up, queues without bound, and never sends a lost segment again. Works on
 * one thread, {@code bacnet requests}; sending from it is safe for any thread and never waits.
 */
public final class Exchange implements Transport, Post {
    private static final Logger LOG = LoggerFactory.getLogger(Exchange.class);
    /** Between two looks at what is due, while something waits; seconds are waited for. */
    private static final long BUSY_NANOS = 100_000_000L;

    private static final long IDLE_NANOS = 1_000_000_000L;
    private static final long STOP_MILLIS = 2000;

    private final Network network;
    private final RequestQueue queue;
    private final BridgeClock clock;
    private final Timing timing;
    private final Lock whole;
    private final LimitedLog trouble;
    private final Sender sender;
    private final Questions questions;
    private final SegmentedReplies segmented;
    private final Map<Integer, OctetString> routers = new ConcurrentHashMap<>();
    private final Thread thread = new Thread(this::run, "bacnet requests");

    private @Nullable LocalDevice device;
    private @Nullable Requests requests;
    private Runnable afterEach = () -> {};
    private volatile boolean closed;
    private long nextStep;

    /** @param whole held while a request is worked on, so that it reads no half of a change */
    public Exchange(Network network, RequestQueue queue, Timing timing, BridgeClock clock, Lock whole) {
        this.network = network;
        this.queue = queue;
        this.clock = clock;
        this.timing = timing;
        this.whole = whole;
        this.trouble = new LimitedLog(LOG, clock);
        this.sender = new Sender(network, trouble);
        this.questions = new Questions(sender, timing, clock);
        this.segmented = new SegmentedReplies(sender, timing, clock);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(new VitalThread());
    }

    /** What is done after each message was worked on, and at least every second. Set before the start. */
    public void afterEach(Runnable work) {
        afterEach = work;
    }

    @Override
    public void initialize() throws Exception {
        requests = new Requests(getLocalDevice(), sender, segmented, whole, trouble);
        network.initialize(this);
        nextStep = clock.ticks();
        thread.start();
        network.sendNetworkMessage(getLocalBroadcastAddress(), null, 0, null, true, false);
    }

    private void run() {
        try {
            while (!closed) {
                NPDU next = queue.poll(questions.isEmpty() && segmented.isEmpty() ? IDLE_NANOS : BUSY_NANOS);
                if (next != null) {
                    work(next);
                }
                rest();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void rest() {
        try {
            afterEach.run();
            long now = clock.ticks();
            if (now - nextStep >= 0) {
                nextStep = now + BUSY_NANOS;
                questions.step();
                segmented.step();
            }
        } catch (RuntimeException e) {
            trouble.tell(e.getClass(), () -> "bacnet: what was due was not done: " + e);
        }
    }

    private void work(NPDU message) {
        try {
            if (message.isNetworkMessage()) {
                learn(message);
            } else {
                work(new Station(message.getFrom(), message.getLinkService()), message);
            }
        } catch (BACnetException | RuntimeException e) {
            // One message that nobody understands must not end the thread that answers all the others.
            trouble.tell(e.getClass(), () -> "bacnet: a message was not handled: " + e);
        }
    }

    /** I-Am-Router-To-Network: the networks behind a router. */
    private void learn(NPDU message) {
        ByteQueue networks = message.getNetworkMessageData();
        while (networks.size() > 1) {
            addNetworkRouter(networks.popU2B(), message.getFrom().getMacAddress());
        }
    }

    private void work(Station from, NPDU message) throws BACnetException {
        APDU apdu = message.getAPDU(getLocalDevice().getServicesSupported());
        if (apdu instanceof ConfirmedRequest request && requests != null) {
            requests.answer(from, request);
        } else if (apdu instanceof UnconfirmedRequest request) {
            request.parseServiceData();
            request.getService().handle(getLocalDevice(), from.address());
        } else if (apdu instanceof SegmentACK ack) {
            segmented.acknowledged(from.address(), ack);
        } else if (apdu instanceof Abort abort && !abort.isServer()) {
            segmented.aborted(from.address(), abort.getOriginalInvokeId());
        } else if (apdu instanceof AckAPDU ack) {
            Reply reply = apdu instanceof SimpleACK ? Reply.ACKNOWLEDGED : Reply.REFUSED;
            questions.answered(from.address(), ack.getOriginalInvokeId(), reply);
        }
    }

    @Override
    public void tell(Address to, UnconfirmedRequestService notification) {
        send(to, notification);
    }

    @Override
    public void ask(Address to, ConfirmedRequestService notification, Consumer<Reply> done) {
        questions.ask(to, way(to), notification, done);
    }

    /** How an address is reached; null for one behind a router that is not known. */
    private @Nullable Station way(Address address) {
        int number = address.getNetworkNumber().intValue();
        if (address.isGlobal() || network.isThisNetwork(address)) {
            return new Station(address, null);
        }
        OctetString router = routers.get(number);
        return router == null ? null : new Station(address, router);
    }

    @Override
    public void send(Address address, UnconfirmedRequestService service) {
        Station to = way(address);
        if (to == null) {
            trouble.tell(Station.class, () -> "bacnet: no router to network " + address.getNetworkNumber());
            return;
        }
        boolean broadcast = address.isGlobal() || address.equals(getLocalBroadcastAddress());
        try {
            network.sendAPDU(address, to.router(), new UnconfirmedRequest(service), broadcast);
        } catch (BACnetException e) {
            sender.notSent(address.getDescription(), e);
        }
    }

    @Override
    public void terminate() {
        closed = true;
        thread.interrupt();
        try {
            thread.join(STOP_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        network.terminate();
    }

    @Override
    public ServiceFuture send(
            Address address, int longest, Segmentation segmentation, ConfirmedRequestService service) {
        throw new UnsupportedOperationException("this device asks nobody but its subscribers");
    }

    @Override
    public void send(
            Address address,
            int longest,
            Segmentation segmentation,
            ConfirmedRequestService service,
            ResponseConsumer consumer) {
        throw new UnsupportedOperationException("this device asks nobody but its subscribers");
    }

    @Override
    public void incoming(NPDU message) {
        throw new UnsupportedOperationException("messages come by the queue of the port");
    }

    @Override
    public NetworkIdentifier getNetworkIdentifier() {
        return network.getNetworkIdentifier();
    }

    @Override
    public Network getNetwork() {
        return network;
    }

    @Override
    public LocalDevice getLocalDevice() {
        if (device == null) {
            throw new IllegalStateException("the library sets its device first");
        }
        return device;
    }

    @Override
    public void setLocalDevice(LocalDevice device) {
        this.device = device;
    }

    @Override
    public int getTimeout() {
        return timing.apduMillis();
    }

    @Override
    public int getSegTimeout() {
        return timing.segmentMillis();
    }

    @Override
    public int getRetries() {
        return timing.retries();
    }

    @Override
    public int getSegWindow() {
        return SegmentedReply.PROPOSED_WINDOW;
    }

    /** The library's device object sets times of its own at its start; ours are those of {@link Timing}. */
    @Override
    public void setTimeout(int millis) {}

    @Override
    public void setSegTimeout(int millis) {}

    @Override
    public void setRetries(int retries) {}

    @Override
    public void setSegWindow(int window) {}

    @Override
    public long getBytesOut() {
        return network.getBytesOut();
    }

    @Override
    public long getBytesIn() {
        return network.getBytesIn();
    }

    @Override
    public Address getLocalBroadcastAddress() {
        return network.getLocalBroadcastAddress();
    }

    @Override
    public void addNetworkRouter(int number, OctetString router) {
        routers.put(number, router);
    }

    @Override
    public Map<Integer, OctetString> getNetworkRouters() {
        return routers;
    }
}
