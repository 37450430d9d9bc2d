package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.broker.Broker;
import burnerbridge.mqtt.broker.PahoBroker;
import burnerbridge.mqtt.broker.PahoBroker.Protocol;
import burnerbridge.mqtt.door.Gate;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.WriteEvent;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Publishes a value table on an MQTT broker, of version 5 or 3.1.1, with quality of service 1.
 *
 * <p>Every point has a topic, {@code <root>/<site>/<controller>/<point>}, every controller and the
 * bridge itself a link, a description and one for events, which alone is not retained. A point is sent when it moves by more than its {@code change}, when its
 * quality changes, and again before half of its message's validity is over. Brokers are tried in turn
 * and for ever; whatever changes while none is there is sent afterwards, the newest of each topic.
 *
 * <p>It only reads the table. Where the gate is given to it, it takes asks for writes, which the gate decides on, and tells
 * how permits stand. Safe for any number of threads.
 */
public final class MqttAdapter implements HealthSource, MetricSource, AutoCloseable {
    private final MqttSettings settings;
    private final Site site;
    private final ValueTable table;
    private final BridgeClock clock;
    private final Broker broker;
    private final WriteNews writeNews;
    private volatile Supplier<Optional<String>> auditHead = Optional::empty;
    private volatile Optional<Gatehouse> gatehouse = Optional.empty();
    private final AtomicBoolean started = new AtomicBoolean();
    private final AtomicBoolean closed = new AtomicBoolean();
    private volatile @Nullable SendThread thread;

    public MqttAdapter(MqttSettings settings, Site site, ValueTable table, BridgeClock clock) {
        this(settings, site, table, clock, new PahoBroker(protocol(settings.version())));
    }

    private static Protocol protocol(MqttSettings.Version version) {
        return version == MqttSettings.Version.V5 ? Protocol.MQTT_5 : Protocol.MQTT_3_1_1;
    }

    MqttAdapter(MqttSettings settings, Site site, ValueTable table, BridgeClock clock, Broker broker) {
        if (settings.brokers().isEmpty()) {
            throw new IllegalArgumentException("MQTT needs at least one broker");
        }
        this.settings = settings;
        this.site = site;
        this.table = table;
        this.clock = clock;
        this.broker = broker;
        this.writeNews = new WriteNews(clock);
    }

    /**
     * What the bridge's link says of the audit of writes, so that others keep it: the newest record, or nothing. To be set
     * before the start; asked on a thread of the adapter, and must not wait.
     */
    public MqttAdapter publishing(Supplier<Optional<String>> newestRecord) {
        auditHead = newestRecord;
        return this;
    }

    /**
     * Takes asks for the points whose permits say that MQTT may ask, and tells how every permit stands. To be set before
     * the start; empty where nothing may be written at all.
     */
    public MqttAdapter asking(Optional<Gatehouse> gate) {
        gatehouse = gate;
        gate.ifPresent(house -> house.watch(writeNews));
        return this;
    }

    /** Takes what becomes of writes, to be told as events. For any thread; does not wait. */
    public WriteEvent.Listener writeEvents() {
        return writeNews;
    }

    /** Begins to connect and returns at once, whether a broker is there or not. Once only. */
    public void start() {
        if (closed.get() || !started.compareAndSet(false, true)) {
            throw new IllegalStateException("an MQTT adapter starts once");
        }
        SendThread begun = new SendThread(
                settings,
                site,
                table,
                clock,
                broker,
                new AccessFiles(settings, System.getenv()),
                new Writes(auditHead, gatehouse.map(Gate::of), writeNews));
        begun.start();
        thread = begun;
    }

    /** How the connection stands; empty before the start. */
    public Optional<BrokerState> state() {
        return Optional.ofNullable(thread).map(SendThread::state);
    }

    /** What is wrong with the broker or the way to it; nothing before the start and after the end. */
    @Override
    public void tell(Consumer<Trouble> troubles) {
        SendThread begun = thread;
        if (begun != null && !closed.get()) {
            begun.tell(troubles);
        }
    }

    /** What this side counts; nothing before the start. */
    @Override
    public void measure(MetricSink sink) {
        SendThread begun = thread;
        if (begun != null) {
            begun.measure(sink);
        }
    }

    /**
     * Says on the bridge's link topic that it was stopped, and disconnects. Returns within about three
     * seconds, whatever the broker does. A second call does nothing.
     */
    @Override
    public void close() {
        SendThread begun = thread;
        if (closed.compareAndSet(false, true) && begun != null) {
            begun.close();
        }
    }
}
