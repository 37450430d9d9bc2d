package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import java.net.URI;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.jspecify.annotations.Nullable;

/** One connection of the Paho client, which is used once and then forgotten, so that nothing of an old one is left. */
final class PahoSession implements Broker.Session {
    /** What a broker allows that does not say (MQTT 5.0, 3.2.2.3.3). */
    private static final int WHERE_NOT_SAID = 65_535;

    private final Consumer<Event> events;
    private final CuttableSockets sockets = new CuttableSockets();
    private final AtomicBoolean over = new AtomicBoolean();
    private @Nullable AliasFreeClient client;

    PahoSession(Consumer<Event> events) {
        this.events = events;
    }

    void start(URI address, Introduction introduction) {
        try {
            client = new AliasFreeClient(PahoOptions.address(address), introduction.clientId());
            client.setCallback(new Watcher());
            client.connect(PahoOptions.of(introduction, sockets), null, answerTo(this::opened, this::failed));
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
            // A failure here is the end of the connection, and that is told as such.
            client.send(message, answerTo(token -> answered(message, token), failure -> {}));
            return true;
        } catch (MqttException e) {
            return false;
        }
    }

    /** Blocks for a tenth of a second, which is what the library takes. */
    @Override
    public void end() {
        if (client == null) {
            return;
        }
        try {
            client.disconnect(0, null, answerTo(token -> ended("disconnected"), this::failed), 0, new MqttProperties());
        } catch (MqttException e) {
            failed(e);
        }
    }

    /** Closes the socket below the library, which cannot be told to give up while it connects. */
    @Override
    public void cut() {
        over.set(true);
        sockets.cut();
    }

    private void opened(IMqttToken token) {
        MqttProperties properties = token.getResponseProperties();
        Integer allowed = properties == null ? null : properties.getReceiveMaximum();
        events.accept(new Event.Opened(this, allowed == null ? WHERE_NOT_SAID : allowed));
    }

    /** The library calls a refused message a success: only the reason code tells. */
    private void answered(Message message, IMqttToken token) {
        int[] codes = token.getReasonCodes();
        int code = codes == null || codes.length == 0 ? 0 : codes[0];
        events.accept(new Event.Answered(this, message.topic(), new ReasonCode(code)));
    }

    private void failed(Throwable failure) {
        int code = failure instanceof MqttException e ? e.getReasonCode() : 0;
        ReasonCode reason = code >= 0x80 && code <= 0xFF ? new ReasonCode(code) : ReasonCode.NONE;
        ended(reason, reason.isFailure() ? reason.text() : Failures.text(failure));
    }

    private void ended(String detail) {
        ended(ReasonCode.NONE, detail);
    }

    private void ended(ReasonCode reason, String detail) {
        if (over.compareAndSet(false, true)) {
            sockets.cut();
            events.accept(new Event.Ended(this, reason, detail));
        }
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
                ended(reason, "the broker ended it: " + reason.text());
            }
        }

        @Override
        public void mqttErrorOccurred(MqttException exception) {}

        @Override
        public void messageArrived(String topic, MqttMessage message) {}

        @Override
        public void deliveryComplete(IMqttToken token) {}

        @Override
        public void connectComplete(boolean reconnect, String serverUri) {}

        @Override
        public void authPacketArrived(int reasonCode, MqttProperties properties) {}
    }
}
