package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import javax.net.SocketFactory;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;

/** Our terms in the words of the Paho client. */
final class PahoOptions {
    private static final Set<String> PLAIN = Set.of("mqtt", "tcp");
    private static final int AT_LEAST_ONCE = 1;
    private static final int CONNECT_SECONDS = 10;
    private static final int KEEP_ALIVE_SECONDS = 20;

    private PahoOptions() {}

    /**
     * The form of an address that the client takes.
     *
     * @throws IllegalArgumentException where the scheme is another than mqtt or tcp, or there is more or less than
     *     a host and a port
     */
    static String address(URI address) {
        if (address.getScheme() == null || !PLAIN.contains(address.getScheme())) {
            throw new IllegalArgumentException("a broker's address begins with tcp:// (was " + address.getScheme()
                    + "); encrypted connections are not there yet");
        }
        boolean bare = address.getHost() != null
                && address.getPort() > 0
                && address.getPath().isEmpty()
                && address.getUserInfo() == null;
        if (!bare) {
            throw new IllegalArgumentException("a broker's address is a host and a port (was " + address.getHost() + ":"
                    + address.getPort() + address.getPath() + ")");
        }
        return "tcp://" + address.getHost() + ":" + address.getPort();
    }

    /** A clean start and no session afterwards: whatever is owed, our own outbox knows. */
    static MqttConnectionOptions of(Introduction introduction, SocketFactory sockets) {
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setSocketFactory(sockets);
        options.setAutomaticReconnect(false);
        options.setCleanStart(true);
        options.setSessionExpiryInterval(0L);
        options.setTopicAliasMaximum(0);
        options.setConnectionTimeout(CONNECT_SECONDS);
        options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
        Message will = introduction.will();
        options.setWill(will.topic(), message(will));
        return options;
    }

    static MqttMessage message(Message message) {
        MqttProperties properties = new MqttProperties();
        if (message.expirySeconds() > 0) {
            properties.setMessageExpiryInterval(message.expirySeconds());
        }
        byte[] payload = message.payload().getBytes(StandardCharsets.UTF_8);
        return new MqttMessage(payload, AT_LEAST_ONCE, true, properties);
    }
}
