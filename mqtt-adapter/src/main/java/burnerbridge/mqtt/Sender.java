package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.watch.MqttFigures;
import burnerbridge.table.Change;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * Brings the newest state of every topic to the broker. Stepped: {@link #step} does what is due and says
 * when it is next due; one thread steps it, a test with a clock of its own.
 */
final class Sender implements HealthSource {
    /** How long a message may wait for its acknowledgement before the connection counts as dead. */
    static final long ANSWER_LIMIT = TimeUnit.SECONDS.toNanos(10);
    /** How long leaving may wait for the last message's acknowledgement, and then for the connection's end. */
    static final long FAREWELL_LIMIT = TimeUnit.MILLISECONDS.toNanos(1_500);

    static final long END_LIMIT = TimeUnit.MILLISECONDS.toNanos(700);
    /** A pause after the connection would not take a message, and the longest between two steps. */
    private static final long RETRY_PAUSE = TimeUnit.MILLISECONDS.toNanos(20);

    private static final long LONGEST_PAUSE = TimeUnit.SECONDS.toNanos(1);

    private enum Stage {
        RUNNING,
        SAYING_FAREWELL,
        ENDING,
        GONE
    }

    private final SiteTopics topics;
    private final Connector connector;
    private final Outbox outbox;
    private final ReadBack readBack;
    private final WriteDesk writes;
    private final MqttFigures figures;
    private Stage stage = Stage.RUNNING;
    private long stageEnd;
    private long due;

    /** @param figures the connector's too */
    Sender(SiteTopics topics, Connector connector, WriteDesk writes, MqttFigures figures) {
        this.topics = topics;
        this.connector = connector;
        this.figures = figures;
        this.outbox = new Outbox(topics, figures);
        this.readBack = new ReadBack(topics, outbox);
        this.writes = writes;
        this.due = connector.nextDue();
    }

    /** Takes in what happened and does what is due; returns the tick of the next step. */
    long step(Stamp now, List<Change> changes, List<Event> events) {
        events.forEach(event -> take(event, now));
        changes.forEach(change -> outbox.changed(change, now));
        writes.tell(outbox);
        if (stage == Stage.RUNNING) {
            connector.step(now);
            writes.answer(outbox, now);
        }
        connector.session().ifPresent(session -> send(session, now));
        leaveFurther(now);
        figures.show(outbox.queues());
        due = soonest(now.ticks());
        return due;
    }

    long nextDue() {
        return due;
    }

    /** Whether the next thing to happen is most likely an event of the broker's. */
    boolean isAwaitingBroker() {
        return stage != Stage.RUNNING || connector.isOpening() || outbox.isAwaitingAnswers();
    }

    BrokerState state() {
        return connector.state();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        connector.tell(troubles);
        outbox.tell(troubles);
        writes.tell(troubles);
    }

    /** From now on only says that the bridge was stopped, and then disconnects. A second call does nothing. */
    void leave(Stamp now) {
        if (stage != Stage.RUNNING) {
            return;
        }
        topics.stopping(now);
        readBack.closed();
        outbox.sayFarewell();
        enter(Stage.SAYING_FAREWELL, now.ticks() + FAREWELL_LIMIT);
    }

    /** Whether leaving is over. */
    boolean isGone() {
        return stage == Stage.GONE;
    }

    /** Drops the connection because of a fault on our side. */
    void fail(String detail, Stamp now) {
        connector.fail(detail, now);
        disconnected();
        due = connector.nextDue();
    }

    private void take(Event event, Stamp now) {
        if (!connector.isCurrent(event.session())) {
            return;
        }
        if (event instanceof Event.Opened opened) {
            opened(opened, now);
        } else if (event instanceof Event.Answered answered) {
            outbox.answered(answered.topic(), answered.reason(), now);
        } else if (event instanceof Event.Granted granted) {
            if (!writes.granted(granted, now)) {
                readBack.granted(granted.reason(), now);
            }
        } else if (event instanceof Event.Arrived arrived) {
            readBack.arrived(arrived, now);
        } else if (stage == Stage.ENDING) {
            depart(now);
        } else if (event instanceof Event.Ended ended) {
            connector.ended(ended, now);
            disconnected();
        }
    }

    /** On this thread, never on one of the client library's, which would wait for itself. */
    private void opened(Event.Opened opened, Stamp now) {
        connector.opened(opened, now);
        outbox.opened(opened.receiveMaximum());
        if (stage == Stage.RUNNING) {
            readBack.opened(opened.session(), now);
            writes.opened(opened.session());
        }
    }

    private void disconnected() {
        outbox.closed();
        readBack.closed();
    }

    private void send(Session session, Stamp now) {
        if (outbox.oldestUnanswered(now.ticks()) > ANSWER_LIMIT) {
            fail("no acknowledgement for " + TimeUnit.NANOSECONDS.toSeconds(ANSWER_LIMIT) + " s", now);
        } else if (stage != Stage.ENDING) {
            readBack.step(session, now);
            outbox.send(session, now);
        }
    }

    private void leaveFurther(Stamp now) {
        boolean late = now.ticks() - stageEnd >= 0;
        if (stage == Stage.SAYING_FAREWELL) {
            if (connector.session().isEmpty()) {
                depart(now);
            } else if (late || outbox.isFarewellSaid()) {
                connector.session().ifPresent(Session::end);
                enter(Stage.ENDING, now.ticks() + END_LIMIT);
            }
        } else if (stage == Stage.ENDING && (late || connector.session().isEmpty())) {
            depart(now);
        }
    }

    private void depart(Stamp now) {
        connector.close(now);
        disconnected();
        enter(Stage.GONE, now.ticks());
    }

    private void enter(Stage next, long end) {
        stage = next;
        stageEnd = end;
    }

    private long soonest(long nowTicks) {
        if (stage == Stage.GONE || stage == Stage.ENDING) {
            return stage == Stage.GONE ? nowTicks + LONGEST_PAUSE : stageEnd;
        }
        if (outbox.isStuck()) {
            return nowTicks + RETRY_PAUSE;
        }
        boolean open = connector.session().isPresent();
        long next = open ? outbox.nextDue(nowTicks, nowTicks + LONGEST_PAUSE) : connector.nextDue();
        long wait = Math.min(LONGEST_PAUSE, Math.min(next, readBack.nextDue(next)) - nowTicks);
        if (stage == Stage.SAYING_FAREWELL) {
            wait = Math.min(wait, stageEnd - nowTicks);
        }
        return nowTicks + Math.max(0, wait);
    }
}
