package burnerbridge.simulator.demo.feed;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps the newest message of every point of every controller, as any subscriber would get it. What came is
 * kept while the broker is away.
 */
public final class TopicWatch implements MqttCallback, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(TopicWatch.class);
    private static final String LINK = "/link";
    private static final int AT_LEAST_ONCE = 1;
    private static final int SECONDS_TO_CONNECT = 5;

    private final String prefix;
    private final MqttClient client;
    private final Map<String, Published> byTopic = new ConcurrentHashMap<>();
    private final Map<String, String> links = new ConcurrentHashMap<>();

    /** @param siteTopic the topic above those of the controllers */
    public TopicWatch(int port, String siteTopic) throws MqttException {
        this.prefix = siteTopic + "/";
        this.client = new MqttClient("tcp://127.0.0.1:" + port, "demo-screen", new MemoryPersistence());
        client.setCallback(this);
    }

    /** Connects and subscribes; again after the broker was away. */
    public void connect() throws MqttException {
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setCleanStart(true);
        options.setConnectionTimeout(SECONDS_TO_CONNECT);
        client.connect(options);
        client.subscribe(prefix + "+/+", AT_LEAST_ONCE);
    }

    /** The newest message of a point; empty before the first. */
    public Optional<Published> point(String controller, String name) {
        return Optional.ofNullable(byTopic.get(controller + "/" + name));
    }

    /** Whether the bridge says that a controller answers: up, down or unknown; empty before it has. */
    public String link(String controller) {
        return links.getOrDefault(controller, "");
    }

    /**
     * How the points of a controller are.
     *
     * @param good how many of them have the quality good
     * @param all how many are published
     */
    public record Tally(int good, int all) {}

    /** Of one controller. */
    public Tally tally(String controller) {
        int good = 0;
        int all = 0;
        for (Map.Entry<String, Published> each : byTopic.entrySet()) {
            if (each.getKey().startsWith(controller + "/")) {
                all++;
                good += each.getValue().isGood() ? 1 : 0;
            }
        }
        return new Tally(good, all);
    }

    @Override
    public void messageArrived(String topic, MqttMessage message) {
        String point = topic.substring(prefix.length());
        if (point.endsWith(LINK)) {
            links.put(point.substring(0, point.length() - LINK.length()), Published.linkState(message.getPayload()));
            return;
        }
        Published published = Published.parse(message.getPayload());
        if (message.getPayload().length == 0) {
            byTopic.remove(point);
        } else if (published.isPoint()) {
            byTopic.put(point, published);
        }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
        LOG.debug("demo screen: the broker closed the connection: {}", response);
    }

    @Override
    public void mqttErrorOccurred(MqttException exception) {
        LOG.warn("demo screen: {}", exception.toString());
    }

    @Override
    public void deliveryComplete(IMqttToken token) {
        // It sends nothing.
    }

    @Override
    public void connectComplete(boolean reconnect, String serverUri) {
        // Subscribed by connect().
    }

    @Override
    public void authPacketArrived(int reasonCode, MqttProperties properties) {
        // The broker asks for none.
    }

    @Override
    public void close() throws MqttException {
        try {
            if (client.isConnected()) {
                client.disconnect(1000);
            }
        } finally {
            client.close();
        }
    }
}
