package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.socket.CuttableSockets;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.MqttSubscription;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.jspecify.annotations.Nullable;

/** One connection of MQTT 5, which is used once and then forgotten, so that nothing of an old one is left. */
final class Mqtt5Session implements Broker.Session {
    /** What a broker allows that does not say (MQTT 5.0, 3.2.2.3.3). */
    private static final int WHERE_NOT_SAID = 65_535;
    /** More than a PUBLISH packet has besides topic and payload as we send it. */
    private static final int PACKET_FRAME = 32;

    private final Connection connection;
    private @Nullable Mqtt5Client client;
    private volatile long longestPacket = Long.MAX_VALUE;

    Mqtt5Session(CuttableSockets sockets, Consumer<Broker.Event> events) {
        this.connection = new Connection(this, sockets, events);
    }

    void start(BrokerAddress address, Introduction introduction) {
        try {
            client = new Mqtt5Client(address.forClient(), introduction.clientId());
            client.setCallback(new Watcher());
            client.connect(
                    Mqtt5Options.of(introduction, connection.sockets()), null, answerTo(this::opened, this::failed));
        } catch (MqttException | IllegalArgumentException e) {
            failed(e);
        }
    }

    @Override
    public boolean publish(Message message) {
        if (client == null) {
            return false;
        }
        if (length(message) > longestPacket) {
            // The client would send it all the same, and the broker would end the connection for it.
            connection.answered(message.topic(), ReasonCode.TOO_LARGE);
            return true;
        }
        try {
            // A failure here is the end of the connection, and that is told as such.
            client.send(message, answerTo(token -> answered(message, token), failure -> {}));
            return true;
        } catch (MqttException e) {
            return false;
        }
    }

    private static long length(Message message) {
        return PACKET_FRAME
                + (long) message.topic().getBytes(StandardCharsets.UTF_8).length
                + message.payload().getBytes(StandardCharsets.UTF_8).length
                + message.correlation().length();
    }

    @Override
    public void subscribe(String filter, Broker.Wanted wanted) {
        try {
            if (client != null) {
                MqttSubscription[] one = {Mqtt5Options.subscription(filter, wanted)};
                // Refused is a failure for this client, and broken off too; the latter is told as the end.
                client.subscribe(
                        one,
                        null,
                        answerTo(
                                token -> connection.granted(filter, firstOf(token.getReasonCodes())),
                                failure -> refused(filter, failure)),
                        new MqttProperties());
            }
        } catch (MqttException e) {
            connection.granted(filter, reason(e));
        }
    }

    @Override
    public void unsubscribe(String filter) {
        try {
            if (client != null) {
                client.unsubscribe(new String[] {filter}, null, null, new MqttProperties());
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
                    0,
                    null,
                    answerTo(token -> connection.ended(ReasonCode.NONE, "disconnected"), this::failed),
                    0,
                    new MqttProperties());
        } catch (MqttException e) {
            failed(e);
        }
    }

    @Override
    public void cut() {
        connection.cut();
    }

    private void opened(IMqttToken token) {
        MqttProperties properties = token.getResponseProperties();
        Integer allowed = properties == null ? null : properties.getReceiveMaximum();
        Long longest = properties == null ? null : properties.getMaximumPacketSize();
        longestPacket = longest == null ? Long.MAX_VALUE : longest;
        connection.opened(allowed == null ? WHERE_NOT_SAID : allowed);
    }

    /** The library calls a refused message a success: only the reason code tells. */
    private void answered(Message message, IMqttToken token) {
        connection.answered(message.topic(), firstOf(token.getReasonCodes()));
    }

    private void refused(String filter, Throwable failure) {
        ReasonCode reason = failure instanceof MqttException e ? reason(e) : ReasonCode.UNSPECIFIED;
        connection.granted(filter, reason);
    }

    private static ReasonCode firstOf(int @Nullable [] codes) {
        return new ReasonCode(codes == null || codes.length == 0 ? 0 : codes[0]);
    }

    private static ReasonCode reason(MqttException e) {
        int code = e.getReasonCode();
        return code >= 0x80 && code <= 0xFF ? new ReasonCode(code) : ReasonCode.UNSPECIFIED;
    }

    private void failed(Throwable failure) {
        int code = failure instanceof MqttException e ? e.getReasonCode() : 0;
        ReasonCode reason = code >= 0x80 && code <= 0xFF ? new ReasonCode(code) : ReasonCode.NONE;
        connection.ended(reason, reason.isFailure() ? reason.text() : Failures.text(failure));
    }

    private static MqttActionListener answerTo(Consumer<IMqttToken> success, Consumer<Throwable> failure) {
        return new MqttActionListener() {
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
        public void disconnected(MqttDisconnectResponse response) {
            MqttException cause = response.getException();
            if (cause != null) {
                failed(cause);
            } else {
                ReasonCode reason = new ReasonCode(response.getReturnCode() & 0xFF);
                connection.ended(reason, "the broker ended it: " + reason.text());
            }
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            connection.arrived(topic, message.getPayload(), message.isRetained(), Mqtt5Options.dispatch(message));
        }

        @Override
        public void mqttErrorOccurred(MqttException exception) {}

        @Override
        public void deliveryComplete(IMqttToken token) {}

        @Override
        public void connectComplete(boolean reconnect, String serverUri) {}

        @Override
        public void authPacketArrived(int reasonCode, MqttProperties properties) {}
    }
}
