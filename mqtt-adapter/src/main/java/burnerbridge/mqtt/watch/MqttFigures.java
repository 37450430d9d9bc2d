package burnerbridge.mqtt.watch;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.ReasonCode;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;

/**
 * What the sender and its connections count. Nothing that a broker or another client can choose is in a label. Safe for any
 * number of threads.
 */
public final class MqttFigures {
    private static final Metric CONNECTED =
            Metric.gauge("burner_bridge_mqtt_connected", "1 while there is a connection to a broker, else 0.");
    private static final Metric SINCE =
            Metric.gauge("burner_bridge_mqtt_state_age_seconds", "For how long there has been a connection, or none.");
    private static final Metric CONNECTIONS =
            Metric.counter("burner_bridge_mqtt_connections", "Connections that a broker accepted.");
    private static final Metric ENDS = Metric.counter(
            "burner_bridge_mqtt_connection_ends",
            "Connections that ended, and attempts that never became one (not-opened), by how.",
            "how");
    private static final Metric SENT =
            Metric.counter("burner_bridge_mqtt_sent_messages", "Messages that were handed to a connection.");
    private static final Metric ACKNOWLEDGED =
            Metric.counter("burner_bridge_mqtt_acknowledged_messages", "Messages that a broker took.");
    private static final Metric REFUSED = Metric.counter(
            "burner_bridge_mqtt_refused_messages",
            "Messages that a broker refused, by the class of its reason.",
            "reason");
    private static final Metric REFUSED_TOPICS =
            Metric.gauge("burner_bridge_mqtt_refused_topics", "Topics whose latest message a broker refused.");
    private static final Metric OWED = Metric.gauge(
            "burner_bridge_mqtt_owed_topics",
            "Topics whose newest message waits to be sent; without a connection all that are kept.");
    private static final Metric IN_FLIGHT =
            Metric.gauge("burner_bridge_mqtt_in_flight_messages", "Messages that wait for their acknowledgement.");
    private static final Metric WAITING_REPLIES =
            Metric.gauge("burner_bridge_mqtt_waiting_replies", "Answers to askers that wait to be sent.");
    private static final Metric DROPPED_REPLIES = Metric.counter(
            "burner_bridge_mqtt_dropped_replies",
            "Answers to askers that were dropped: too many waited, or nobody waits for them any more.",
            "why");

    private final LongAdder connections = new LongAdder();
    private final Map<Ending, LongAdder> ends = adders(Ending.class);
    private final LongAdder sent = new LongAdder();
    private final LongAdder acknowledged = new LongAdder();
    private final Map<Refused, LongAdder> refused = adders(Refused.class);
    private final LongAdder repliesTooMany = new LongAdder();
    private final LongAdder repliesTooLate = new LongAdder();
    private volatile Link link;
    private volatile Queues queues = new Queues(0, 0, 0, 0);

    private record Link(boolean connected, Stamp since) {}

    /**
     * What waits at a moment.
     *
     * @param owed topics
     * @param inFlight messages
     * @param replies answers to askers
     * @param refused topics
     */
    public record Queues(int owed, int inFlight, int replies, int refused) {}

    /** The reasons of brokers in classes that tell what to do (MQTT 5.0, 2.4). */
    private enum Refused {
        NOT_AUTHORIZED,
        QUOTA,
        TOO_LARGE,
        TOPIC,
        OTHER;

        static Refused of(ReasonCode reason) {
            return switch (reason.number()) {
                case 0x87 -> NOT_AUTHORIZED;
                case 0x93, 0x96, 0x97 -> QUOTA;
                case 0x95 -> TOO_LARGE;
                case 0x90, 0x9A, 0x9B -> TOPIC;
                default -> OTHER;
            };
        }

        String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    public MqttFigures(Stamp begin) {
        this.link = new Link(false, begin);
    }

    private static <K extends Enum<K>> Map<K, LongAdder> adders(Class<K> kinds) {
        Map<K, LongAdder> adders = new EnumMap<>(kinds);
        for (K kind : kinds.getEnumConstants()) {
            adders.put(kind, new LongAdder());
        }
        return adders;
    }

    private static <K extends Enum<K>> LongAdder adder(Map<K, LongAdder> adders, K kind) {
        LongAdder adder = adders.get(kind);
        if (adder == null) {
            throw new IllegalStateException("no counter for " + kind);
        }
        return adder;
    }

    public void opened(Stamp now) {
        connections.increment();
        link = new Link(true, now);
    }

    public void ended(Ending how, Stamp now) {
        adder(ends, how).increment();
        closed(now);
    }

    /** There is no connection, and none is wanted any more. */
    public void closed(Stamp now) {
        if (link.connected()) {
            link = new Link(false, now);
        }
    }

    public void sent() {
        sent.increment();
    }

    /** A broker answered a message. */
    public void answered(ReasonCode reason) {
        if (reason.isFailure()) {
            adder(refused, Refused.of(reason)).increment();
        } else {
            acknowledged.increment();
        }
    }

    public void replyTooMany() {
        repliesTooMany.increment();
    }

    public void replyTooLate() {
        repliesTooLate.increment();
    }

    public void show(Queues present) {
        queues = present;
    }

    /** Gives all samples; does not wait. */
    public void measure(MetricSink sink, long nowTicks) {
        Link state = link;
        Queues waiting = queues;
        sink.sample(CONNECTED, state.connected() ? 1 : 0);
        sink.sample(SINCE, state.since().ageAt(nowTicks) / 1e9);
        sink.sample(CONNECTIONS, connections.sum());
        for (Ending how : Ending.values()) {
            sink.sample(ENDS, adder(ends, how).sum(), how.word());
        }
        sink.sample(SENT, sent.sum());
        sink.sample(ACKNOWLEDGED, acknowledged.sum());
        for (Refused reason : Refused.values()) {
            sink.sample(REFUSED, adder(refused, reason).sum(), reason.word());
        }
        sink.sample(REFUSED_TOPICS, waiting.refused());
        sink.sample(OWED, waiting.owed());
        sink.sample(IN_FLIGHT, waiting.inFlight());
        sink.sample(WAITING_REPLIES, waiting.replies());
        sink.sample(DROPPED_REPLIES, repliesTooMany.sum(), "too-many");
        sink.sample(DROPPED_REPLIES, repliesTooLate.sum(), "too-late");
    }
}
