package burnerbridge.simulator.broker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class EmbeddedBrokerIT {
    private static final InetAddress HOST = InetAddress.getLoopbackAddress();

    private final EmbeddedBroker broker = broker(0);

    @BeforeEach
    void start() throws BrokerException {
        broker.start();
    }

    @AfterEach
    void close() {
        broker.close();
    }

    @Test
    void aRetainedMessageReachesALaterSubscriber() throws Exception {
        MqttClient sender = connected("sender", new MqttConnectionOptions());
        sender.publish("plant/a", "42".getBytes(StandardCharsets.UTF_8), 1, true);

        Inbox inbox = new Inbox();
        MqttClient receiver = client("receiver");
        receiver.setCallback(inbox);
        receiver.connect();
        receiver.subscribe("plant/#", 1);

        assertThat(inbox.next()).isEqualTo("plant/a 42 retained");
        end(sender, receiver);
    }

    @Test
    void aLastWillIsSentWhenItsClientIsCutOff() throws Exception {
        Inbox inbox = new Inbox();
        MqttClient receiver = client("receiver");
        receiver.setCallback(inbox);
        receiver.connect();
        receiver.subscribe("plant/#", 1);
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setWill("plant/link", new MqttMessage("down".getBytes(StandardCharsets.UTF_8), 1, true, null));
        MqttClient dying = connected("dying", options);

        dying.disconnectForcibly(0, 0, false);

        assertThat(inbox.next()).startsWith("plant/link down");
        end(receiver);
    }

    @Test
    void aPortThatIsTakenIsSaid() throws IOException {
        try (ServerSocket taken = new ServerSocket(0, 1, HOST)) {
            EmbeddedBroker second = broker(taken.getLocalPort());

            assertThatThrownBy(second::start).isInstanceOf(BrokerException.class);
        }
    }

    @Test
    void aClosedBrokerFreesItsPortForTheNext() throws Exception {
        int port = broker.port();
        broker.close();
        assertThatThrownBy(() -> new Socket(HOST, port)).isInstanceOf(IOException.class);

        try (EmbeddedBroker next = broker(port)) {
            next.start();
            end(connected("sender", new MqttConnectionOptions(), port));
        }
    }

    @Test
    void itStartsOnce() {
        assertThatThrownBy(broker::start).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void itLeavesNothingOnDisk() throws MqttException {
        MqttClient sender = connected("sender", new MqttConnectionOptions());
        sender.publish("plant/a", new byte[100_000], 1, true);
        end(sender);

        broker.close();

        assertThat(Files.exists(Path.of("data"))).isFalse();
    }

    private static EmbeddedBroker broker(int port) {
        try {
            return new EmbeddedBroker(HOST, port);
        } catch (BrokerException e) {
            throw new AssertionError(e);
        }
    }

    private MqttClient client(String name) throws MqttException {
        return client(name, broker.port());
    }

    private static MqttClient client(String name, int port) throws MqttException {
        return new MqttClient("tcp://127.0.0.1:" + port, name, new MemoryPersistence());
    }

    private MqttClient connected(String name, MqttConnectionOptions options) throws MqttException {
        return connected(name, options, broker.port());
    }

    private static MqttClient connected(String name, MqttConnectionOptions options, int port) throws MqttException {
        MqttClient client = client(name, port);
        client.connect(options);
        return client;
    }

    private static void end(MqttClient... clients) throws MqttException {
        for (MqttClient client : clients) {
            client.disconnect();
            client.close();
        }
    }

    /** Messages in the order of their arrival. */
    private static final class Inbox implements MqttCallback {
        private final BlockingQueue<String> messages = new LinkedBlockingQueue<>();

        String next() throws InterruptedException {
            return String.valueOf(messages.poll(10, TimeUnit.SECONDS));
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            messages.add(topic + " " + new String(message.getPayload(), StandardCharsets.UTF_8)
                    + (message.isRetained() ? " retained" : ""));
        }

        @Override
        public void disconnected(MqttDisconnectResponse response) {}

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
