package burnerbridge.bacnet.edge.watch;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.model.Stamp;
import java.net.InetAddress;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Whether broadcasts arrive, as far as that can be known. Our own come back, since the system hands them to everybody
 * on this machine who listens: where they do not, the address or a packet filter here is wrong, which proves nothing of
 * the network. Those of others prove that they arrive. That others speak to us directly and none of their broadcasts
 * comes makes it likely that they do not. Nothing at all says nothing. Safe for any number of threads.
 */
final class Broadcasts implements HealthSource {
    /** Within so long a broadcast of ours comes back. */
    static final Duration RETURN = Duration.ofSeconds(5);
    /** After so long without a broadcast of anybody, one that arrives by then is missed. */
    static final Duration PATIENCE = Duration.ofMinutes(15);
    /** As PATIENCE, where broadcasts have arrived before: a quiet network is not a broken one. */
    static final Duration LATER_PATIENCE = Duration.ofHours(24);

    private static final Logger LOG = LoggerFactory.getLogger(Broadcasts.class);
    private static final Metric HEARD = Metric.counter(
            "burner_bridge_bacnet_broadcasts_heard",
            "Broadcasts that arrived, of stations on other machines and of this port itself.",
            "from");
    private static final Metric STATE = Metric.gauge(
            "burner_bridge_bacnet_broadcasts_state",
            "Whether broadcasts arrive: 1 at the state that it is now, 0 at the others.",
            "state");
    private static final Metric AGE = Metric.gauge(
            "burner_bridge_bacnet_broadcast_age_seconds",
            "Since the latest broadcast of a station on another machine; none before the first.");

    /** What is known of them. */
    enum State {
        /** A foreign device has them from its manager, as unicasts. */
        NOT_NEEDED,
        /** Those of others arrive. */
        HEARD,
        /** Nobody has been heard, or not for long enough to tell. */
        NOT_KNOWN,
        /** Not even our own comes back. */
        OWN_LOST,
        /** Stations speak to us, all from other networks than ours, and no broadcast comes. */
        ONLY_FROM_ELSEWHERE,
        /** Stations of our own network speak to us, and no broadcast comes. */
        ONLY_DIRECT;

        /** The word used in messages: {@code own-lost}. */
        String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    private final String place;
    private final InetAddress broadcast;
    private final boolean foreign;
    private final OwnPlace ownPlace;
    /** The start, or when a broadcast of another came last. */
    private Stamp quietSince;

    private boolean others;
    private boolean neighboursSpoke;
    private boolean elsewhereSpoke;
    private boolean sent;
    private long sentAt;
    private boolean returned;
    private long returnedAt;
    private long othersCount;
    private long ownCount;
    private State state = State.NOT_KNOWN;
    private Stamp since;

    Broadcasts(String place, InetAddress broadcast, boolean foreign, OwnPlace ownPlace, Stamp now) {
        this.place = place;
        this.broadcast = broadcast;
        this.foreign = foreign;
        this.ownPlace = ownPlace;
        this.quietSince = now;
        this.since = now;
        this.state = foreign ? State.NOT_NEEDED : State.NOT_KNOWN;
    }

    /** A broadcast of ours left; not called for one that the system would not take. */
    synchronized void sent(long at) {
        sent = true;
        sentAt = at;
    }

    /** A broadcast of ours came back. */
    synchronized void returned(long at) {
        returned = true;
        returnedAt = at;
        ownCount++;
    }

    /** A datagram of another station came. */
    synchronized void heard(InetAddress from, boolean toAll, Stamp now) {
        if (toAll) {
            others = true;
            othersCount++;
            quietSince = now;
            neighboursSpoke = false;
            elsewhereSpoke = false;
        } else if (!foreign) {
            if (ownPlace.isNeighbour(from)) {
                neighboursSpoke = true;
            } else {
                elsewhereSpoke = true;
            }
        }
    }

    /** Works out how it stands, and tells when that is another than before. */
    void step(Stamp now) {
        State before;
        State next;
        synchronized (this) {
            before = state;
            next = next(now.ticks());
            if (next == before) {
                return;
            }
            state = next;
            since = next == State.ONLY_DIRECT || next == State.ONLY_FROM_ELSEWHERE ? quietSince : now;
        }
        if (before == State.OWN_LOST) {
            LOG.info("{}: this port's own broadcasts come back again", place);
        }
        if (next == State.HEARD) {
            LOG.info("{}: broadcasts of other stations arrive", place);
        } else if (next != State.NOT_KNOWN) {
            trouble().ifPresent(trouble -> LOG.warn("{}", trouble.sentence()));
        }
    }

    private State next(long now) {
        if (foreign) {
            return State.NOT_NEEDED;
        }
        if (isOwnLost(now)) {
            return State.OWN_LOST;
        }
        if (ownPlace.isLoopback()) {
            return others ? State.HEARD : State.NOT_KNOWN;
        }
        Duration patience = others ? LATER_PATIENCE : PATIENCE;
        boolean quiet = now - quietSince.ticks() >= patience.toNanos();
        if (quiet && neighboursSpoke) {
            return State.ONLY_DIRECT;
        }
        if (quiet && elsewhereSpoke) {
            return State.ONLY_FROM_ELSEWHERE;
        }
        return others ? State.HEARD : State.NOT_KNOWN;
    }

    private boolean isOwnLost(long now) {
        boolean came = returned && returnedAt - sentAt >= 0;
        if (!sent || came) {
            return false;
        }
        // Until the time is over it stands as it stood: one that is on its way tells nothing new.
        return now - sentAt >= RETURN.toNanos() || state == State.OWN_LOST;
    }

    synchronized State state() {
        return state;
    }

    private synchronized Optional<Trouble> trouble() {
        return switch (state) {
            case OWN_LOST ->
                trouble(
                        "not even this port's own broadcasts to " + broadcast.getHostAddress() + " come back",
                        "the packet filter of this machine (UDP must be let in), and broadcast and bind in site.yaml",
                        Weight.DEGRADED);
            case ONLY_FROM_ELSEWHERE ->
                trouble(
                        "stations speak to this port, none of its own network " + ownPlace.networks()
                                + ", and no broadcast arrives: broadcasts stay within a network",
                        "whether this is a container in a network of its own, which needs host or macvlan networking, or"
                                + " a network without stations, which needs foreign-device in site.yaml",
                        Weight.NOTICE);
            case ONLY_DIRECT ->
                trouble(
                        "stations of this network " + ownPlace.networks()
                                + " speak to this port, and no broadcast of anybody arrives at "
                                + broadcast.getHostAddress(),
                        "the network mask and broadcast address here and there, at switches and access points that keep"
                                + " broadcasts back, and at whether this is a container in a network of its own, which needs host or"
                                + " macvlan networking",
                        Weight.NOTICE);
            case NOT_KNOWN ->
                ownPlace.isAlone() && !ownPlace.isLoopback()
                        ? trouble(
                                "the address " + ownPlace.networks()
                                        + " is in a network that has room for nobody else, so no broadcast can arrive",
                                "the network mask of this machine",
                                Weight.NOTICE)
                        : Optional.empty();
            case NOT_NEEDED, HEARD -> Optional.empty();
        };
    }

    private Optional<Trouble> trouble(String seen, String lookAt, Weight weight) {
        return Optional.of(new Trouble(Place.NETWORK, place, seen, lookAt, since, weight));
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        trouble().ifPresent(troubles);
    }

    void measure(MetricSink sink, long now) {
        long fromOthers;
        long own;
        State present;
        double age;
        synchronized (this) {
            fromOthers = othersCount;
            own = ownCount;
            present = state;
            age = others ? quietSince.ageAt(now) / 1e9 : -1;
        }
        sink.sample(HEARD, fromOthers, "others");
        sink.sample(HEARD, own, "self");
        for (State each : State.values()) {
            sink.sample(STATE, each == present ? 1 : 0, each.word());
        }
        if (age >= 0) {
            sink.sample(AGE, age);
        }
    }
}
