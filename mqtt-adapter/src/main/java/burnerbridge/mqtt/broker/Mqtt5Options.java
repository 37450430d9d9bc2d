package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import java.nio.charset.StandardCharsets;
import java.util.OptionalLong;
import javax.net.SocketFactory;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/** Our terms in the words of the client for MQTT 5. */
final class Mqtt5Options {
    static final int AT_LEAST_ONCE = 1;
    static final int CONNECT_SECONDS = 10;
    static final int KEEP_ALIVE_SECONDS = 20;

    /** Far above any description of ours, and far below what this machine could not hold. */
    private static final long LARGEST_PACKET = 8L << 20;
    /** No retained message is sent (MQTT 5.0, 3.8.3.1). */
    private static final int NOTHING_KEPT = 2;

    private Mqtt5Options() {}

    /** A clean start and no session afterwards: whatever is owed, our own outbox knows. */
    static MqttConnectionOptions of(Introduction introduction, SocketFactory sockets) {
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setSocketFactory(sockets);
        options.setAutomaticReconnect(false);
        options.setCleanStart(true);
        options.setSessionExpiryInterval(0L);
        options.setTopicAliasMaximum(0);
        options.setMaximumPacketSize(LARGEST_PACKET);
        options.setConnectionTimeout(CONNECT_SECONDS);
        options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
        String user = introduction.access().user();
        String password = introduction.access().password();
        if (user != null) {
            options.setUserName(user);
        }
        if (password != null) {
            options.setPassword(password.getBytes(StandardCharsets.UTF_8));
        }
        Message will = introduction.will();
        options.setWill(will.topic(), message(will));
        return options;
    }

    static MqttMessage message(Message message) {
        MqttProperties properties = new MqttProperties();
        if (message.expirySeconds() > 0) {
            properties.setMessageExpiryInterval(message.expirySeconds());
        }
        if (!message.correlation().isEmpty()) {
            properties.setCorrelationData(message.correlation().toArray());
        }
        byte[] payload = message.payload().getBytes(StandardCharsets.UTF_8);
        return new MqttMessage(payload, AT_LEAST_ONCE, message.retained(), properties);
    }

    static MqttSubscription subscription(String filter, Broker.Wanted wanted) {
        MqttSubscription subscription = new MqttSubscription(filter, AT_LEAST_ONCE);
        if (wanted == Broker.Wanted.NEW) {
            subscription.setRetainHandling(NOTHING_KEPT);
            subscription.setRetainAsPublished(true);
        }
        return subscription;
    }

    static Dispatch dispatch(MqttMessage message) {
        MqttProperties properties = message.getProperties();
        if (properties == null) {
            return Dispatch.NONE;
        }
        String topic = properties.getResponseTopic();
        byte[] correlation = properties.getCorrelationData();
        Long expiry = properties.getMessageExpiryInterval();
        return new Dispatch(
                topic == null ? "" : topic,
                correlation == null ? Octets.NONE : Octets.of(correlation),
                expiry == null ? OptionalLong.empty() : OptionalLong.of(expiry));
    }
}
