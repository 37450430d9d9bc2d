package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import java.nio.charset.StandardCharsets;
import javax.net.SocketFactory;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttMessage;

/** Our terms in the words of the client for MQTT 3.1.1. */
final class Mqtt311Options {
    static final int AT_LEAST_ONCE = 1;
    /** The client's own bound; the outbox keeps far below it. */
    private static final int MOST_UNDER_WAY = 1_000;

    private Mqtt311Options() {}

    static MqttConnectOptions of(Introduction introduction, SocketFactory sockets) {
        MqttConnectOptions options = new MqttConnectOptions();
        options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
        options.setSocketFactory(sockets);
        options.setAutomaticReconnect(false);
        options.setCleanSession(true);
        options.setMaxInflight(MOST_UNDER_WAY);
        options.setConnectionTimeout(Mqtt5Options.CONNECT_SECONDS);
        options.setKeepAliveInterval(Mqtt5Options.KEEP_ALIVE_SECONDS);
        String user = introduction.access().user();
        String password = introduction.access().password();
        if (user != null) {
            options.setUserName(user);
        }
        if (password != null) {
            options.setPassword(password.toCharArray());
        }
        Message will = introduction.will();
        options.setWill(will.topic(), bytes(will), AT_LEAST_ONCE, will.retained());
        return options;
    }

    static MqttMessage message(Message message) {
        MqttMessage own = new MqttMessage(bytes(message));
        own.setQos(AT_LEAST_ONCE);
        own.setRetained(message.retained());
        return own;
    }

    private static byte[] bytes(Message message) {
        return message.payload().getBytes(StandardCharsets.UTF_8);
    }
}
