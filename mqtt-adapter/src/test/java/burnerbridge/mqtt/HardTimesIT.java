package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.Subscriber.Delivered;
import burnerbridge.mqtt.Subscriber.Listening;
import burnerbridge.mqtt.Subscriber.Retained;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.ClientThreads;
import burnerbridge.mqtt.broker.PahoBroker;
import burnerbridge.mqtt.broker.PahoBroker.Protocol;
import burnerbridge.mqtt.watch.MqttFigures;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ValueTable;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.slf4j.LoggerFactory;

/** What a broker, a clock and other clients can do to a bridge. */
class HardTimesIT {
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final String BASE = "plant/heat/quillmere/";
    private static final String OXYGEN = BASE + "boiler-1/oxygen";

    private final ShiftedClock clock = new ShiftedClock();
    private final Deque<AutoCloseable> opened = new ArrayDeque<>();
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private Site site =
            TestPlant.site(1, TestPlant.point("load", Unit.of("%"), Duration.ofMinutes(5), "0", States.NONE));
    private ValueTable table = TestPlant.table(site);

    @TempDir
    Path folder;

    @BeforeEach
    void listen() {
        Mosquitto.require();
        log.start();
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).addAppender(log);
    }

    @AfterEach
    void closeAll() throws Exception {
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).detachAppender(log);
        for (AutoCloseable closeable : opened) {
            closeable.close();
        }
    }

    /** A day forth, a day back, and into both changes of Lisbon's clocks, which are at 01:00 UTC. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "2026-11-26T08:00:00Z",
                "2026-11-24T08:00:00Z",
                "2027-03-28T00:59:59.900Z",
                "2026-10-25T00:59:59.900Z"
            })
    void aClockThatIsSetChangesTheTimesShownAndNothingElse(Instant set) {
        site = TestPlant.site(1, lasting("load"), lasting("oxygen"));
        table = TestPlant.table(site);
        Mosquitto broker = open(Mosquitto.start(folder, Mosquitto.freePort()));
        table.publish(site.points().get(0), TestPlant.real(1, clock.now()));
        table.publish(site.points().get(1), TestPlant.real(7, clock.now()));
        MqttAdapter adapter = startAdapter(broker.port());
        awaitTopics(broker, 6);
        Stamp since = adapter.state().orElseThrow().since();
        Listening listening = open(new Subscriber(broker.port(), List.of()).listen(BASE + "+/+"));
        await().atMost(LONG).until(() -> listening.heard().size() >= 6);
        Delivered before = broker.retained().of(OXYGEN);

        clock.setWall(set);
        table.publish(site.points().get(0), TestPlant.real(2, clock.now()));
        await().atMost(LONG).until(() -> value(broker) == 2);
        clock.forward(Duration.ofSeconds(31));
        await().atMost(LONG)
                .until(() -> isAfter(broker.retained().of(BASE + "_self/link"), set.plusSeconds(30))
                        && isAfter(broker.retained().of(BASE + "boiler-1/link"), set.plusSeconds(30)));
        Retained retained = broker.retained();

        assertThat(sentAt(retained.of(BASE + "boiler-1/load"))).isBetween(set.minusSeconds(1), set.plusSeconds(60));
        assertThat(retained.of(BASE + "boiler-1/load").expiry()).isBetween(200L, 300L);
        assertThat(retained.of(BASE + "_self/link").payload().get("state").asString())
                .isEqualTo("up");
        assertThat(retained.of(OXYGEN).payload()).isEqualTo(before.payload());
        assertThat(listening.heard())
                .filteredOn(heard -> heard.topic().equals(OXYGEN))
                .hasSize(1);
        assertThat(adapter.state().orElseThrow().since()).isEqualTo(since);
        assertThat(warnings()).isEmpty();
    }

    private static PointDefinition lasting(String name) {
        return TestPlant.point(name, Unit.of("%"), Duration.ofMinutes(5), "0", States.NONE);
    }

    private static boolean isAfter(Delivered delivered, Instant moment) {
        return sentAt(delivered).isAfter(moment);
    }

    private static Instant sentAt(Delivered delivered) {
        return Instant.parse(delivered.payload().get("sentAt").asString());
    }

    @Test
    void aBrokerThatComesBackOnAnotherAddressIsFoundThere() {
        Mosquitto first = open(Mosquitto.start(folder, Mosquitto.freePort()));
        int elsewhere = Mosquitto.freePort();
        table.publish(site.points().get(0), TestPlant.real(1, clock.now()));
        startAdapter(first.port(), elsewhere);
        awaitTopics(first, 5);

        first.kill();
        Mosquitto second = open(Mosquitto.start(folder, elsewhere));

        awaitTopics(second, 5);
        assertThat(value(second)).isEqualTo(1);
    }

    /** This broker only closes the connection: what it looks like is said after the third time. */
    @Test
    void anotherClientOfTheSameNameIsToldAndTheRaceSlowsDown() {
        Mosquitto broker = open(Mosquitto.start(folder, Mosquitto.freePort()));
        MqttAdapter adapter = startAdapter(broker.port());
        awaitTopics(broker, 5);

        Process other = broker.client("mosquitto_sub", "-i", "burner-bridge-quillmere", "-t", "x");
        open(other::destroyForcibly);
        await().atMost(LONG)
                .until(() -> warnings().stream()
                        .anyMatch(w ->
                                w.contains("3 in a row, as when another client connects as burner-bridge-quillmere")));
        other.destroyForcibly();
        clock.forward(Duration.ofSeconds(31));

        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());
        assertThat(warnings()).hasSizeLessThanOrEqualTo(4);
    }

    @Test
    void tenThousandPointsThatChangeAtOnceReachABrokerThatTakesTwentyAtATime() {
        site = TestPlant.siteOf(10_000);
        table = TestPlant.table(site);
        List<SitePoint> points = site.points();
        Mosquitto broker = open(
                Mosquitto.start(folder, Mosquitto.freePort(), "max_inflight_messages 20", "max_queued_messages 0"));
        MqttAdapter adapter = startAdapter(broker.port());
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());

        for (int round = 1; round <= 3; round++) {
            for (int i = 0; i < 10_000; i++) {
                table.publish(points.get(i), TestPlant.whole(10_000L * round + i, clock.now()));
            }
        }

        await().atMost(Duration.ofSeconds(60)).until(() -> {
            // Read anew, as a poller would, so that no value grows old on a slow machine.
            for (int i = 0; i < 10_000; i++) {
                table.publish(points.get(i), TestPlant.whole(30_000L + i, clock.now()));
            }
            Retained retained = broker.retained();
            return points.stream()
                    .allMatch(p ->
                            retained.has(BASE + "boiler-1/" + p.definition().name())
                                    && retained.valueOf(BASE + "boiler-1/"
                                                            + p.definition().name())
                                                    .asLong(-1)
                                            == 30_000L + p.ordinal());
        });
        assertThat(warnings()).isEmpty();
    }

    /** Each attempt is a real one; the pauses in between are stepped. */
    @ParameterizedTest
    @EnumSource(Protocol.class)
    void threeHundredFailedAttemptsLeaveNoThreadAndFillNoLog(Protocol protocol) throws InterruptedException {
        HandClock hand = new HandClock();
        Inbox<Event> inbox = new Inbox<>();
        MqttSettings settings = TestPlant.settings("tcp://127.0.0.1:" + Mosquitto.freePort());
        Connector connector = new Connector(
                new PahoBroker(protocol),
                settings.brokers(),
                "burner-bridge-quillmere",
                new Message("t/link", "{}", 0),
                new AccessWatch(new AccessFiles(settings, Map.of())),
                inbox::post,
                new MqttFigures(hand.now()),
                hand.now());
        for (int i = 0; i < 300; i++) {
            connector.step(hand.now());
            List<Event> events = inbox.await(Duration.ofSeconds(20).toNanos());
            assertThat(events).hasSize(1).allMatch(event -> event instanceof Event.Ended);
            connector.ended((Event.Ended) events.get(0), hand.now());
            hand.forward(Duration.ofNanos(connector.nextDue() - hand.ticks()));
        }

        assertThat(warnings()).hasSize(1);
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(ClientThreads.running()).isEmpty());
    }

    private long value(Mosquitto broker) {
        Retained retained = broker.retained();
        return retained.has(BASE + "boiler-1/load")
                ? retained.valueOf(BASE + "boiler-1/load").asLong(-1)
                : -1;
    }

    private List<String> warnings() {
        return log.list.stream()
                .filter(e -> e.getLevel().isGreaterOrEqual(Level.WARN))
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }

    private static void awaitTopics(Mosquitto broker, int count) {
        await().atMost(LONG).until(() -> broker.retained().byTopic().size() >= count);
    }

    private MqttAdapter startAdapter(int... ports) {
        String[] brokers = java.util.Arrays.stream(ports)
                .mapToObj(port -> "tcp://127.0.0.1:" + port)
                .toArray(String[]::new);
        MqttAdapter adapter = open(new MqttAdapter(TestPlant.settings(brokers), site, table, clock));
        adapter.start();
        return adapter;
    }

    private <T extends AutoCloseable> T open(T closeable) {
        opened.push(closeable);
        return closeable;
    }
}
