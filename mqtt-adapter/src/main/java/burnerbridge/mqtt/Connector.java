package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.access.AccessException;
import burnerbridge.mqtt.broker.Broker;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.watch.BrokerTroubles;
import burnerbridge.mqtt.watch.Contest;
import burnerbridge.mqtt.watch.Ending;
import burnerbridge.mqtt.watch.MqttFigures;
import java.net.URI;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Connects, and connects again, for ever. One thread; only {@link #state} is for all. */
final class Connector implements HealthSource {
    /** How long an attempt may take from its begin to the broker's answer. */
    static final long OPEN_LIMIT = TimeUnit.SECONDS.toNanos(15);

    /** How long the end of a connection may take that is made anew. */
    private static final long RENEW_LIMIT = TimeUnit.SECONDS.toNanos(1);

    /** A connection that held for this long was a good one. */
    static final long LASTED = TimeUnit.SECONDS.toNanos(30);

    private final Broker broker;
    private final String clientId;
    private final Message will;
    private final AccessWatch access;
    private final Consumer<Event> events;
    private final Rota rota;
    private final ConnectionLog log;
    private final Contest contest = new Contest();
    private final MqttFigures figures;
    private @Nullable Session session;
    private boolean open;
    private boolean renewing;
    /** Of the session's begin, and from the broker's answer on, of that. */
    private long sinceTicks;
    /** Of the next attempt while there is no session, and of the latest end of one that is renewed. */
    private long dueTicks;

    /** Since when there is no connection. */
    private Stamp missedSince;

    private volatile BrokerState state;
    private volatile Optional<Trouble> trouble;

    /** @param will what the broker says in our name when the connection breaks */
    Connector(
            Broker broker,
            List<URI> addresses,
            String clientId,
            Message will,
            AccessWatch access,
            Consumer<Event> events,
            MqttFigures figures,
            Stamp startedAt) {
        this.broker = broker;
        this.clientId = clientId;
        this.will = will;
        this.access = access;
        this.events = events;
        this.rota = new Rota(addresses);
        this.log = new ConnectionLog(clientId, contest);
        this.dueTicks = startedAt.ticks();
        this.figures = figures;
        this.missedSince = startedAt;
        this.state = new BrokerState(false, "not connected yet", startedAt);
        this.trouble = Optional.of(BrokerTroubles.notConnected(
                "the first attempt is on its way to " + Rota.text(rota.current()), startedAt));
    }

    /**
     * Begins an attempt when its time has come, and gives one up that takes too long; ends a connection
     * whose keys or password were renewed, to make it anew.
     */
    void step(Stamp now) {
        boolean late = now.ticks() - nextDue() >= 0;
        if (session == null && late) {
            begin(now);
        } else if (session != null && !open && late) {
            fail("no answer within " + TimeUnit.NANOSECONDS.toSeconds(OPEN_LIMIT) + " s", now);
        } else if (renewing && now.ticks() - dueTicks >= 0) {
            fail("no end within a second", now);
        } else if (open && !renewing && access.isRenewed(now)) {
            renew(now);
        }
        if (open && contest.isOverBy(now.ticks() - sinceTicks)) {
            log.undisputed(rota.current());
            trouble = Optional.empty();
        }
    }

    private void begin(Stamp now) {
        sinceTicks = now.ticks();
        try {
            session = broker.open(rota.current(), new Introduction(clientId, will, access.read(now)), events);
        } catch (AccessException e) {
            ended(ReasonCode.NONE, String.valueOf(e.getMessage()), now);
            trouble = Optional.of(BrokerTroubles.noAccess(String.valueOf(e.getMessage()), missedSince));
        }
    }

    private void renew(Stamp now) {
        renewing = true;
        dueTicks = now.ticks() + RENEW_LIMIT;
        Objects.requireNonNull(session).end();
    }

    /** The tick at which {@link #step} has something to do, as long as the connection is not open. */
    long nextDue() {
        return session == null ? dueTicks : sinceTicks + OPEN_LIMIT;
    }

    boolean isOpening() {
        return session != null && !open;
    }

    boolean isCurrent(Session other) {
        return session == other;
    }

    /** The session, while it is open. */
    Optional<Session> session() {
        return open && !renewing ? Optional.ofNullable(session) : Optional.empty();
    }

    BrokerState state() {
        return state;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        trouble.ifPresent(troubles);
    }

    void opened(Event.Opened opened, Stamp now) {
        open = true;
        sinceTicks = now.ticks();
        log.opened(rota.current(), opened.receiveMaximum());
        figures.opened(now);
        state = new BrokerState(true, "connected to " + Rota.text(rota.current()), now);
        trouble = contested();
    }

    void ended(Event.Ended ended, Stamp now) {
        ended(ended.reason(), ended.detail(), now);
    }

    /** Ends the session from our side, as if it had ended by itself; without one, the attempt to make one. */
    void fail(String detail, Stamp now) {
        if (session != null) {
            session.cut();
        }
        ended(ReasonCode.NONE, detail, now);
    }

    /** Ends for good; the session's own end should have been asked for before. */
    void close(Stamp now) {
        if (session != null) {
            session.cut();
        }
        log.closed(rota.current());
        figures.closed(now);
        rest("stopped", now.ticks(), now);
    }

    private void ended(ReasonCode reason, String detail, Stamp now) {
        URI address = rota.current();
        Ending ending = endingOf(reason, detail, now);
        figures.ended(ending, now);
        if (open) {
            missedSince = now;
        }
        long pause = switch (ending) {
            case NOT_OPENED, SOON_LOST -> rota.pauseAfterFailure();
            case LOST -> rota.pauseAfterLoss();
            case TAKEN, CONTESTED -> contest.nextPause();
            case RENEWED -> 0;
        };
        rest(log.ended(address, ending, detail, pause), now.ticks() + pause, now);
        trouble = ending == Ending.TAKEN || ending == Ending.CONTESTED
                ? contested()
                : Optional.of(BrokerTroubles.notConnected(state.detail(), missedSince));
    }

    private Optional<Trouble> contested() {
        return contest.since()
                .map(since -> BrokerTroubles.contested(Rota.text(rota.current()), clientId, contest, since, open));
    }

    private Ending endingOf(ReasonCode reason, String detail, Stamp now) {
        if (renewing) {
            return Ending.RENEWED;
        }
        boolean taken = reason.equals(ReasonCode.TAKEN_OVER);
        if (!open && !taken) {
            return Ending.NOT_OPENED;
        }
        long held = open ? now.ticks() - sinceTicks : 0;
        boolean silently = !reason.isFailure() && ConnectionLog.isBrokenOff(detail);
        if (contest.ended(taken, silently, held, now)) {
            return taken ? Ending.TAKEN : Ending.CONTESTED;
        }
        return held >= LASTED ? Ending.LOST : Ending.SOON_LOST;
    }

    private void rest(String detail, long untilTicks, Stamp now) {
        session = null;
        open = false;
        renewing = false;
        dueTicks = untilTicks;
        state = new BrokerState(false, detail, now);
    }
}
