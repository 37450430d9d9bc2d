package burnerbridge.mqtt.broker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.mqtt.Mosquitto;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Broker.Session;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;

class PahoBrokerIT {
    private static final Introduction INTRODUCTION =
            new Introduction("burner-bridge-quillmere", new Message("t/link", "{}", 0));
    private static final Duration LONG = Duration.ofSeconds(20);

    private final List<Event> events = new CopyOnWriteArrayList<>();
    private final PahoBroker broker = new PahoBroker();

    @Test
    void fiftyAttemptsWithoutABrokerEndOnceEachAndLeaveNoThread() {
        URI nowhere = URI.create("mqtt://127.0.0.1:" + Mosquitto.freePort());
        for (int i = 0; i < 50; i++) {
            open(nowhere);
        }

        await().atMost(LONG).until(() -> events.size() == 50);
        assertThat(events)
                .allSatisfy(e -> assertThat(((Event.Ended) e).detail()).contains("Connection refused"));
        awaitNoThreads();
        assertThat(events).hasSize(50);
    }

    @Test
    void aBrokerThatTakesTheConnectionAndSaysNothingCanBeLeft() throws IOException {
        try (ServerSocket mute = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            URI address = URI.create("mqtt://127.0.0.1:" + mute.getLocalPort());
            List<Session> sessions = List.of(open(address), open(address), open(address));
            await().atMost(LONG).until(() -> ClientThreads.running().size() >= 9);

            sessions.forEach(Session::cut);

            awaitNoThreads();
            assertThat(events).isEmpty();
            assertThat(sessions).noneMatch(s -> s.publish(new Message("t/x", "{}", 10)));
        }
    }

    @Test
    void anAttemptCutAtOnceNeverConnects() throws IOException {
        try (ServerSocket mute = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            open(URI.create("mqtt://127.0.0.1:" + mute.getLocalPort())).cut();

            awaitNoThreads();
            assertThat(events).isEmpty();
        }
    }

    @Test
    void fiftyConnectionsThatTheBrokerClosesAtOnceLeaveNoThread() throws IOException {
        try (ScriptedBroker closing = new ScriptedBroker()) {
            for (int i = 0; i < 50; i++) {
                open(closing.address());
            }

            await().atMost(LONG).until(() -> events.size() == 50);
            awaitNoThreads();
        }
    }

    /** CONNACK with no properties, then DISCONNECT with reason 0x8E (MQTT 5.0, 3.2 and 3.14). */
    @Test
    void aTakeoverIsToldWithItsReason() throws IOException {
        try (ScriptedBroker broker = new ScriptedBroker("20 03 00 00 00", "E0 01 8E")) {
            Session session = open(broker.address());
            await().atMost(LONG).until(() -> events.equals(List.of(new Event.Opened(session, 65_535))));

            assertThat(session.publish(new Message("t/x", "{}", 10))).isTrue();

            await().atMost(LONG).until(() -> events.size() == 2);
            assertThat(((Event.Ended) events.get(1)).reason()).isEqualTo(ReasonCode.TAKEN_OVER);
        }
    }

    /** CONNACK with Receive Maximum (property 0x21) 10; a refusal is one with reason 0x87 (3.2.2). */
    @Test
    void theReceiveMaximumAndARefusalAreTold() throws IOException {
        try (ScriptedBroker narrow = new ScriptedBroker("20 06 00 00 03 21 00 0A");
                ScriptedBroker refusing = new ScriptedBroker("20 03 00 87 00")) {
            Session session = open(narrow.address());
            await().atMost(LONG).until(() -> events.contains(new Event.Opened(session, 10)));
            session.cut();

            events.clear();
            open(refusing.address());
            await().atMost(LONG).until(() -> events.size() == 1);
            assertThat(((Event.Ended) events.get(0)).reason()).isEqualTo(new ReasonCode(0x87));
            assertThat(((Event.Ended) events.get(0)).detail()).contains("not authorized");
        }
    }

    @Test
    void anAddressThatCannotBeUsedIsAFailureWithAReason() {
        open(URI.create("mqtts://127.0.0.1:8883"));
        open(URI.create("mqtt://127.0.0.1:1/path"));
        open(URI.create("mqtt://127.0.0.1"));

        await().atMost(LONG).until(() -> events.size() == 3);
        assertThat(events.subList(1, 3))
                .allSatisfy(e -> assertThat(((Event.Ended) e).detail()).contains("a host and a port"));
        assertThat(((Event.Ended) events.get(0)).detail()).contains("mqtts");
    }

    private Session open(URI address) {
        return broker.open(address, INTRODUCTION, events::add);
    }

    private static void awaitNoThreads() {
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(ClientThreads.running()).isEmpty());
    }
}
