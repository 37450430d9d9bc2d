package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.socket.CuttableSockets;
import java.util.List;
import java.util.concurrent.ScheduledExecutorService;
import java.util.function.Consumer;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.ScheduledExecutorPingSender;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.jspecify.annotations.Nullable;

/** One connection of MQTT 3.1.1, which is used once and then forgotten. */
final class Mqtt311Session implements Broker.Session {
    /** The broker sets no bound to what is under way (MQTT 3.1.1, 4.4); our own outbox does. */
    private static final int WITHOUT_BOUND = 65_535;
    /** CONNACK return codes 1 to 5 (3.2.2.3), as the reason codes of MQTT 5. */
    private static final List<ReasonCode> RETURN_CODES = List.of(
            ReasonCode.NONE,
            new ReasonCode(0x84),
            new ReasonCode(0x85),
            new ReasonCode(0x88),
            new ReasonCode(0x86),
            new ReasonCode(0x87));
    /** A subscription that is not granted (3.9.3). */
    private static final int NOT_GRANTED = 0x80;

    private final Connection connection;
    private @Nullable MqttAsyncClient client;

    Mqtt311Session(CuttableSockets sockets, Consumer<Broker.Event> events) {
        this.connection = new Connection(this, sockets, events);
    }

    void start(BrokerAddress address, Introduction introduction) {
        try {
            ScheduledExecutorService threads = PahoThreads.ofOneConnection();
            client = new MqttAsyncClient(
                    address.forClient(),
                    introduction.clientId(),
                    new MemoryPersistence(),
                    new ScheduledExecutorPingSender(threads),
                    threads);
            client.setCallback(new Watcher());
            client.connect(
                    Mqtt311Options.of(introduction, connection.sockets()),
                    null,
                    answerTo(token -> connection.opened(WITHOUT_BOUND), this::failed));
        } catch (MqttException | IllegalArgumentException e) {
            failed(e);
        }
    }

    @Override
    public boolean publish(Message message) {
        if (client == null) {
            return false;
        }
        try {
            client.publish(
                    message.topic(),
                    Mqtt311Options.message(message),
                    null,
                    answerTo(token -> connection.answered(message.topic(), ReasonCode.NONE), failure -> {}));
            return true;
        } catch (MqttException e) {
            return false;
        }
    }

    @Override
    public void subscribe(String filter, Broker.Wanted wanted) {
        try {
            if (client != null) {
                client.subscribe(
                        filter,
                        Mqtt311Options.AT_LEAST_ONCE,
                        null,
                        answerTo(
                                token -> granted(filter, token),
                                failure -> connection.granted(filter, ReasonCode.UNSPECIFIED)));
            }
        } catch (MqttException e) {
            connection.granted(filter, ReasonCode.UNSPECIFIED);
        }
    }

    @Override
    public void unsubscribe(String filter) {
        try {
            if (client != null) {
                client.unsubscribe(filter);
            }
        } catch (MqttException e) {
            // What still arrives is not looked at.
        }
    }

    /** Blocks for a tenth of a second, which is what the library takes. */
    @Override
    public void end() {
        if (client == null) {
            return;
        }
        try {
            client.disconnect(
                    0, null, answerTo(token -> connection.ended(ReasonCode.NONE, "disconnected"), this::failed));
        } catch (MqttException e) {
            failed(e);
        }
    }

    @Override
    public void cut() {
        connection.cut();
    }

    private void granted(String filter, IMqttToken token) {
        int[] granted = token.getGrantedQos();
        boolean refused = granted != null && granted.length > 0 && granted[0] == NOT_GRANTED;
        connection.granted(filter, refused ? ReasonCode.UNSPECIFIED : ReasonCode.NONE);
    }

    private void failed(Throwable failure) {
        int code = failure instanceof MqttException e ? e.getReasonCode() : 0;
        ReasonCode reason = code > 0 && code < RETURN_CODES.size() ? RETURN_CODES.get(code) : ReasonCode.NONE;
        connection.ended(reason, reason.isFailure() ? reason.text() : Failures.text(failure));
    }

    private static IMqttActionListener answerTo(Consumer<IMqttToken> success, Consumer<Throwable> failure) {
        return new IMqttActionListener() {
            @Override
            public void onSuccess(IMqttToken token) {
                success.accept(token);
            }

            @Override
            public void onFailure(IMqttToken token, Throwable exception) {
                failure.accept(exception);
            }
        };
    }

    private final class Watcher implements MqttCallback {
        @Override
        public void connectionLost(Throwable cause) {
            failed(cause);
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            connection.arrived(topic, message.getPayload(), message.isRetained(), Dispatch.NONE);
        }

        @Override
        public void deliveryComplete(IMqttDeliveryToken token) {}
    }
}
