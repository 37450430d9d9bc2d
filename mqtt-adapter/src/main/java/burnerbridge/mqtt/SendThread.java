package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.model.VitalThread;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.broker.Broker;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.door.AskDoor;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.watch.MqttFigures;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.table.Change;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The thread that steps the sender on the change feed and the broker's events. */
final class SendThread implements HealthSource, MetricSource {
    private static final Logger LOG = LoggerFactory.getLogger(SendThread.class);
    /** The longest wait for changes, after which events and the wish to close are looked at. */
    private static final long QUIET_LOOK = TimeUnit.MILLISECONDS.toNanos(100);
    /** The longest wait for the broker's answer, after which changes are looked at. */
    private static final long BUSY_LOOK = TimeUnit.MILLISECONDS.toNanos(10);
    /** Longer than a sender takes to leave; past it the thread is interrupted. */
    private static final long CLOSE_MILLIS = 2_800;

    private static final long INTERRUPTED_MILLIS = 200;

    private final ValueTable table;
    private final BridgeClock clock;
    private final ChangeFeed feed;
    private final Inbox<Event> inbox = new Inbox<>();
    private final Sender sender;
    private final MqttFigures figures;
    private final AccessWatch access;
    private final Optional<AskDoor> door;
    private final Thread thread = new Thread(this::run, "mqtt send");
    private volatile boolean closing;

    SendThread(
            MqttSettings settings,
            Site site,
            ValueTable table,
            BridgeClock clock,
            Broker broker,
            AccessFiles files,
            Writes writes) {
        this.table = table;
        this.clock = clock;
        this.feed = table.subscribe();
        Stamp now = clock.now();
        this.figures = new MqttFigures(now);
        this.access = new AccessWatch(files);
        String startId = UUID.randomUUID().toString();
        SiteTopics topics = new SiteTopics(
                        settings, site, table, startId, now, writes.gate().map(gate -> gate::status))
                .publishing(writes.auditHead());
        this.door = writes.gate().map(gate -> new AskDoor(settings, site, gate, clock));
        Connector connector = new Connector(
                broker,
                settings.brokers(),
                settings.clientIdOf(site.name()),
                topics.will(),
                access,
                this::post,
                figures,
                now);
        this.sender = new Sender(topics, connector, new WriteDesk(site, door, writes.news()), figures);
        thread.setUncaughtExceptionHandler(new VitalThread());
    }

    /** On whatever thread the client library has at hand. What is asked goes where no more of it waits than may. */
    private void post(Event event) {
        if (event instanceof Event.Arrived arrived
                && door.isPresent()
                && door.get().takes(arrived.topic())) {
            door.get().offer(arrived);
        } else {
            inbox.post(event);
        }
    }

    void start() {
        thread.start();
    }

    BrokerState state() {
        return sender.state();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        sender.tell(troubles);
        access.tell(troubles, clock.now());
    }

    @Override
    public void measure(MetricSink sink) {
        figures.measure(sink, clock.ticks());
        access.measure(sink);
        door.ifPresent(open -> open.measure(sink));
    }

    void close() {
        closing = true;
        try {
            thread.join(CLOSE_MILLIS);
            if (thread.isAlive()) {
                LOG.warn("mqtt: the sender did not end within {} ms", CLOSE_MILLIS);
                thread.interrupt();
                thread.join(INTERRUPTED_MILLIS);
            }
        } catch (InterruptedException e) {
            thread.interrupt();
            Thread.currentThread().interrupt();
        }
    }

    private void run() {
        try {
            while (!sender.isGone()) {
                turn();
            }
        } catch (InterruptedException e) {
            sender.fail("interrupted", clock.now());
        } finally {
            table.unsubscribe(feed);
        }
    }

    /** One wait and one step. A fault costs the connection, not the thread: everything is sent again. */
    private void turn() throws InterruptedException {
        try {
            long wait = sender.nextDue() - clock.ticks();
            List<Event> events;
            List<Change> changes;
            if (sender.isAwaitingBroker()) {
                events = inbox.await(Math.min(wait, BUSY_LOOK));
                changes = feed.drain();
            } else {
                changes = feed.await(Math.min(wait, QUIET_LOOK));
                events = inbox.drain();
            }
            if (closing) {
                sender.leave(clock.now());
            }
            sender.step(clock.now(), changes, events);
        } catch (RuntimeException e) {
            LOG.error("mqtt: a fault in the sender; connecting anew", e);
            sender.fail("a fault in the sender", clock.now());
        }
    }
}
