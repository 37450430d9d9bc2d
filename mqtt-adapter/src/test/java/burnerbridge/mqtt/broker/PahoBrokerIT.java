package burnerbridge.mqtt.broker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.mqtt.Mosquitto;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Introduction;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.PahoBroker.Protocol;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class PahoBrokerIT {
    private static final Introduction INTRODUCTION =
            new Introduction("burner-bridge-quillmere", new Message("t/link", "{}", 0), Access.NONE);
    /** Something more to say, so that the scripted broker waits and does not close (PINGRESP, MQTT 5.0, 3.13). */
    private static final String PING_ANSWER = "D0 00";

    private static final Duration LONG = Duration.ofSeconds(20);

    private final List<Event> events = new CopyOnWriteArrayList<>();

    @ParameterizedTest
    @EnumSource(Protocol.class)
    void fiftyAttemptsWithoutABrokerEndOnceEachAndLeaveNoThread(Protocol protocol) {
        URI nowhere = URI.create("mqtt://127.0.0.1:" + Mosquitto.freePort());
        for (int i = 0; i < 50; i++) {
            open(protocol, nowhere);
        }

        await().atMost(LONG).until(() -> events.size() == 50);
        assertThat(events)
                .allSatisfy(e -> assertThat(((Event.Ended) e).detail()).contains("Connection refused"));
        awaitNoThreads();
        assertThat(events).hasSize(50);
    }

    @ParameterizedTest
    @EnumSource(Protocol.class)
    void aBrokerThatTakesTheConnectionAndSaysNothingCanBeLeft(Protocol protocol) throws IOException {
        try (ServerSocket mute = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            URI address = URI.create("mqtt://127.0.0.1:" + mute.getLocalPort());
            List<Session> sessions = List.of(open(protocol, address), open(protocol, address), open(protocol, address));
            await().atMost(LONG).until(() -> ClientThreads.running().size() >= 9);

            sessions.forEach(Session::cut);

            awaitNoThreads();
            assertThat(events).isEmpty();
            assertThat(sessions).noneMatch(s -> s.publish(new Message("t/x", "{}", 10)));
        }
    }

    @ParameterizedTest
    @EnumSource(Protocol.class)
    void anEncryptedAttemptThatGetsNoAnswerCanBeLeft(Protocol protocol) throws IOException {
        try (ServerSocket mute = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            Session session = open(protocol, URI.create("mqtts://127.0.0.1:" + mute.getLocalPort()));
            try (Socket accepted = mute.accept()) {
                // The client's hello, a handshake record (RFC 8446, 5.1).
                assertThat(accepted.getInputStream().read()).isEqualTo(22);

                session.cut();

                awaitNoThreads();
                assertThat(events).isEmpty();
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Protocol.class)
    void anAttemptCutAtOnceNeverConnects(Protocol protocol) throws IOException {
        try (ServerSocket mute = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            open(protocol, URI.create("mqtt://127.0.0.1:" + mute.getLocalPort()))
                    .cut();

            awaitNoThreads();
            assertThat(events).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(Protocol.class)
    void fiftyConnectionsThatTheBrokerClosesAtOnceLeaveNoThread(Protocol protocol) throws IOException {
        try (ScriptedBroker closing = new ScriptedBroker()) {
            for (int i = 0; i < 50; i++) {
                open(protocol, closing.address());
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

    /** CONNACK with a return code (MQTT 3.1.1, 3.2.2.3): 4 is a bad user name or password, 5 not authorized. */
    @Test
    void aRefusalOfTheOlderVersionIsToldInTheWordsOfTheNewer() throws IOException {
        try (ScriptedBroker bad = new ScriptedBroker("20 02 00 04");
                ScriptedBroker forbidden = new ScriptedBroker("20 02 00 05")) {
            open(Protocol.MQTT_3_1_1, bad.address());
            await().atMost(LONG).until(() -> events.size() == 1);
            open(Protocol.MQTT_3_1_1, forbidden.address());
            await().atMost(LONG).until(() -> events.size() == 2);

            assertThat(((Event.Ended) events.get(0)).detail()).contains("0x86 bad user name or password");
            assertThat(((Event.Ended) events.get(1)).reason()).isEqualTo(new ReasonCode(0x87));
        }
    }

    /** SUBACK for packet identifier 1 (MQTT 5.0, 3.9; 3.1.1, 3.9), refused with 0x87 and 0x80. */
    @Test
    void aSubscriptionThatIsRefusedIsTold() throws IOException {
        try (ScriptedBroker five = new ScriptedBroker("20 03 00 00 00", "90 04 00 01 00 87", PING_ANSWER);
                ScriptedBroker older = new ScriptedBroker("20 02 00 00", "90 03 00 01 80", PING_ANSWER)) {
            Session session = open(Protocol.MQTT_5, five.address());
            await().atMost(LONG).until(() -> events.size() == 1);
            session.subscribe("t/+/about", Broker.Wanted.KEPT_AND_NEW);
            await().atMost(LONG)
                    .until(() -> events.contains(new Event.Granted(session, "t/+/about", new ReasonCode(0x87))));
            session.cut();

            events.clear();
            Session second = open(Protocol.MQTT_3_1_1, older.address());
            await().atMost(LONG).until(() -> events.size() == 1);
            second.subscribe("t/+/about", Broker.Wanted.KEPT_AND_NEW);
            await().atMost(LONG)
                    .until(() -> events.contains(new Event.Granted(second, "t/+/about", new ReasonCode(0x80))));
            second.cut();
        }
    }

    /** CONNACK with Maximum Packet Size (property 0x27) 60. */
    @Test
    void aMessageThatIsTooLargeForTheBrokerIsRefusedWithoutBeingSent() throws IOException {
        try (ScriptedBroker small = new ScriptedBroker("20 08 00 00 05 27 00 00 00 3C")) {
            Session session = open(small.address());
            await().atMost(LONG).until(() -> !events.isEmpty());

            assertThat(session.publish(new Message("t/x", "x".repeat(40), 10))).isTrue();

            await().atMost(LONG).until(() -> events.contains(new Event.Answered(session, "t/x", ReasonCode.TOO_LARGE)));
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
        open(URI.create("http://127.0.0.1:8883"));
        open(URI.create("mqtt://127.0.0.1:1/path"));
        open(URI.create("mqtt://127.0.0.1"));

        await().atMost(LONG).until(() -> events.size() == 3);
        assertThat(events.subList(1, 3))
                .allSatisfy(e -> assertThat(((Event.Ended) e).detail()).contains("a host and a port"));
        assertThat(((Event.Ended) events.get(0)).detail()).contains("http");
    }

    private Session open(URI address) {
        return open(Protocol.MQTT_5, address);
    }

    private Session open(Protocol protocol, URI address) {
        return new PahoBroker(protocol).open(address, INTRODUCTION, events::add);
    }

    private static void awaitNoThreads() {
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(ClientThreads.running()).isEmpty());
    }
}
