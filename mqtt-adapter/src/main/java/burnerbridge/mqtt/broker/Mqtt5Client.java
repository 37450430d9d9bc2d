package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Message;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttToken;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttPublish;
import org.jspecify.annotations.Nullable;

/**
 * The Paho client without topic aliases. By itself it uses as many as the broker allows, and counts one
 * as known to the broker although the message that should have told it was never sent; the broker then
 * ends the connection. It has no setting for this.
 */
final class Mqtt5Client extends MqttAsyncClient {

    Mqtt5Client(String address, String clientId) throws MqttException {
        super(address, clientId, new MemoryPersistence(), null, PahoThreads.ofOneConnection());
    }

    /** Sends a message with its topic in full; throws where the connection cannot take it. */
    void send(Message message, MqttActionListener listener) throws MqttException {
        MqttToken token = new MqttToken(getClientId());
        token.internalTok.setDeliveryToken(true);
        token.internalTok.setTopics(new String[] {message.topic()});
        token.setActionCallback(listener);
        comms.sendNoWait(new FullTopicPublish(message.topic(), Mqtt5Options.message(message)), token);
    }

    /** The library gives an alias to a message that tells it its topic; the bytes are made without asking. */
    private static final class FullTopicPublish extends MqttPublish {
        FullTopicPublish(String topic, MqttMessage message) {
            super(topic, message, message.getProperties());
        }

        @Override
        public @Nullable String getTopicName() {
            return null;
        }
    }
}
