package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Message;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttToken;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttPublish;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The Paho client without topic aliases. By itself it uses as many as the broker allows, and counts one
 * as known to the broker although the message that should have told it was never sent; the broker then
 * ends the connection. It has no setting for this.
 */
final class AliasFreeClient extends MqttAsyncClient {
    private static final Logger LOG = LoggerFactory.getLogger(AliasFreeClient.class);
    /** Connecting or disconnecting, receiving, sending, calling back, and the ping. */
    private static final int MOST_THREADS = 8;

    private static final long IDLE_MILLIS = 200;

    AliasFreeClient(String address, String clientId) throws MqttException {
        super(address, clientId, new MemoryPersistence(), null, threads());
    }

    /**
     * Threads of one connection, which end when they have nothing more to do. Left to itself the library
     * makes its own and ends its sending one by a notification alone, which is lost when it comes just
     * before the wait, and the thread stays for ever; from an executor it is interrupted.
     */
    private static ScheduledExecutorService threads() {
        ScheduledThreadPoolExecutor threads = new ScheduledThreadPoolExecutor(MOST_THREADS, work -> {
            Thread thread = new Thread(work, "MQTT idle");
            thread.setDaemon(true);
            thread.setUncaughtExceptionHandler((t, e) -> LOG.error("mqtt: thread {} ended", t.getName(), e));
            return thread;
        });
        threads.setKeepAliveTime(IDLE_MILLIS, TimeUnit.MILLISECONDS);
        threads.allowCoreThreadTimeOut(true);
        threads.setRemoveOnCancelPolicy(true);
        return threads;
    }

    /** Sends a message with its topic in full; throws where the connection cannot take it. */
    void send(Message message, MqttActionListener listener) throws MqttException {
        MqttToken token = new MqttToken(getClientId());
        token.internalTok.setDeliveryToken(true);
        token.internalTok.setTopics(new String[] {message.topic()});
        token.setActionCallback(listener);
        comms.sendNoWait(new FullTopicPublish(message.topic(), PahoOptions.message(message)), token);
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
