package burnerbridge.simulator.demo;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Keeps the newest message of every point of a controller, as any subscriber would get it. */
final class TopicWatch implements MqttCallback, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(TopicWatch.class);
    private static final int AT_LEAST_ONCE = 1;

    private final String prefix;
    private final MqttClient client;
    private final Map<String, Published> byPoint = new ConcurrentHashMap<>();

    /**
     * @param controllerTopic the topic above those of the points
     */
    TopicWatch(int port, String controllerTopic) throws MqttException {
        this.prefix = controllerTopic + "/";
        this.client = new MqttClient("tcp://127.0.0.1:" + port, "demo-screen", new MemoryPersistence());
        client.setCallback(this);
    }

    void start() throws MqttException {
        client.connect();
        client.subscribe(prefix + "+", AT_LEAST_ONCE);
    }

    /** The newest message of a point; empty before the first. */
    Optional<Published> point(String name) {
        return Optional.ofNullable(byPoint.get(name));
    }

    @Override
    public void messageArrived(String topic, MqttMessage message) {
        String point = topic.substring(prefix.length());
        if (message.getPayload().length == 0) {
            byPoint.remove(point);
        } else {
            byPoint.put(point, Published.parse(message.getPayload()));
        }
    }

    @Override
    public void disconnected(MqttDisconnectResponse response) {
        LOG.warn("demo screen: the broker closed the connection: {}", response);
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
        // Subscribed by start().
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
