package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.frame.FrameJudge;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The registration of this port with a broadcast management device of another network (ASHRAE 135, J.5.2):
 * asked for, renewed at half its time, and asked for again every ten seconds while it is refused or nobody
 * answers. Stepped by one thread; told of results by another.
 */
public final class ForeignDevice implements HealthSource {
    private static final Logger LOG = LoggerFactory.getLogger(ForeignDevice.class);
    private static final long SECOND = 1_000_000_000L;
    private static final long AGAIN = Duration.ofSeconds(10).toNanos();
    /** How long the other may take to answer. */
    private static final long PATIENCE = Duration.ofSeconds(3).toNanos();

    private static final int DONE = 0x0000;
    private static final int REFUSED = 0x0030;

    /** How it stands with the registration. */
    public enum State {
        ASKING,
        REGISTERED,
        /** The other says that it takes no registration, or not ours. */
        REFUSED,
        NO_REPLY;

        /** The word used in messages: {@code no-reply}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    private final InetSocketAddress manager;
    private final int seconds;
    private final BiConsumer<Octets, InetSocketAddress> sender;
    private State state = State.ASKING;
    private boolean awaited;
    private long askedAt;
    private long due;
    private long endsAt;
    private Stamp since;

    ForeignDevice(InetSocketAddress manager, int seconds, BiConsumer<Octets, InetSocketAddress> sender, Stamp now) {
        this.manager = manager;
        this.seconds = seconds;
        this.sender = sender;
        this.due = now.ticks();
        this.since = now;
    }

    InetSocketAddress manager() {
        return manager;
    }

    public synchronized State state() {
        return state;
    }

    /** Does what is due and says when something is next. */
    synchronized long step(Stamp stamp) {
        long now = stamp.ticks();
        if (awaited && now - askedAt >= PATIENCE) {
            awaited = false;
            if (state != State.REGISTERED || now - endsAt >= 0) {
                become(State.NO_REPLY, stamp);
            }
        }
        if (now - due >= 0) {
            awaited = true;
            askedAt = now;
            due = now + AGAIN;
            sender.accept(FrameJudge.registration(seconds), manager);
        }
        return awaited ? Math.min(due, askedAt + PATIENCE) : due;
    }

    /** Whether a result was an answer to us. */
    synchronized boolean answered(int code, InetSocketAddress from, Stamp stamp) {
        long now = stamp.ticks();
        if (!awaited || !from.equals(manager) || (code != DONE && code != REFUSED)) {
            return false;
        }
        awaited = false;
        if (code == DONE) {
            due = now + seconds * SECOND / 2;
            endsAt = now + seconds * SECOND;
            become(State.REGISTERED, stamp);
        } else {
            become(State.REFUSED, stamp);
        }
        return true;
    }

    private void become(State next, Stamp now) {
        if (next == state) {
            return;
        }
        state = next;
        since = now;
        String place = place();
        switch (next) {
            case REGISTERED -> LOG.info("bacnet: registered as a foreign device with {} for {} s", place, seconds);
            case REFUSED ->
                LOG.warn("bacnet: {} refuses the registration as a foreign device; asking again every 10 s", place);
            default ->
                LOG.warn(
                        "bacnet: {} does not answer the registration as a foreign device; asking again every 10 s",
                        place);
        }
    }

    private String place() {
        return manager.getAddress().getHostAddress() + ":" + manager.getPort();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        Optional<Trouble> trouble;
        synchronized (this) {
            trouble = switch (state) {
                case ASKING, REGISTERED -> Optional.empty();
                case REFUSED ->
                    Optional.of(trouble(
                            place()
                                    + " refuses the registration as a foreign device, so that no broadcast comes or goes",
                            "what that device is, and whether its list of foreign devices has room"));
                case NO_REPLY ->
                    Optional.of(trouble(
                            place()
                                    + " does not answer the registration as a foreign device, so that no broadcast comes"
                                    + " or goes",
                            "the way there, and bacnet.foreign-device in site.yaml"));
            };
        }
        trouble.ifPresent(troubles);
    }

    private Trouble trouble(String seen, String lookAt) {
        return new Trouble(Place.NETWORK, "bacnet", seen, lookAt, since, Trouble.Weight.DEGRADED);
    }
}
