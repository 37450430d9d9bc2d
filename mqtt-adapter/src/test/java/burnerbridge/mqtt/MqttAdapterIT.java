package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import burnerbridge.mqtt.Subscriber.Delivered;
import burnerbridge.mqtt.Subscriber.Retained;
import burnerbridge.mqtt.broker.ClientThreads;
import burnerbridge.site.Site;
import burnerbridge.site.States;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MqttAdapterIT {
    private static final String BASE = "plant/heat/quillmere/";
    private static final String BRIDGE = BASE + "_self/link";
    private static final Duration LONG = Duration.ofSeconds(20);

    private final RealClock clock = new RealClock();
    private final Site site = TestPlant.site(
            2,
            TestPlant.point("load", Unit.of("%"), Duration.ofMinutes(5), "0", States.NONE),
            TestPlant.point("flue-temperature", Unit.of("°C"), Duration.ofMinutes(5), "0", States.NONE));
    private ValueTable table = TestPlant.table(site);

    @TempDir
    Path folder;

    /** What a test opened, newest first. */
    private final Deque<AutoCloseable> opened = new ArrayDeque<>();

    @BeforeAll
    static void mosquittoIsThere() {
        Mosquitto.require();
    }

    @AfterEach
    void closeAll() throws Exception {
        for (AutoCloseable closeable : opened) {
            closeable.close();
        }
    }

    @Test
    void aSubscriberThatComesLaterFindsEveryTopicRetained() {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        fillTable();
        MqttAdapter adapter = startAdapter(broker.port());
        awaitConnected(adapter);

        Retained retained = awaitTopics(broker, 10);

        assertThat(retained.byTopic().keySet())
                .containsExactlyInAnyOrder(
                        BRIDGE,
                        BASE + "_self/about",
                        BASE + "boiler-1/about",
                        BASE + "boiler-2/about",
                        BASE + "boiler-1/link",
                        BASE + "boiler-2/link",
                        BASE + "boiler-1/load",
                        BASE + "boiler-1/flue-temperature",
                        BASE + "boiler-2/load",
                        BASE + "boiler-2/flue-temperature");
        Delivered flue = retained.of(BASE + "boiler-2/flue-temperature");
        assertThat(flue.retained()).isTrue();
        assertThat(flue.quality()).isEqualTo(1);
        assertThat(flue.payload().get("value").decimalValue()).isEqualByComparingTo("103.5");
        assertThat(flue.payload().get("unit").asString()).isEqualTo("°C");
        assertThat(flue.payload().get("quality").asString()).isEqualTo("good");
        assertThat(flue.payload().get("validFor").asLong()).isBetween(290L, 300L);
        assertThat(flue.expiry()).isBetween(280L, 300L);
        assertThat(retained.of(BASE + "boiler-1/link").payload().get("state").asString())
                .isEqualTo("up");
        assertThat(retained.of(BRIDGE).payload().get("state").asString()).isEqualTo("up");
        assertThat(retained.of(BRIDGE).expiry()).isBetween(50L, 60L);
    }

    @Test
    void aChangeArrivesAndEveryMessageCarriesItsTopicInFull() throws IOException {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        Relay relay = open(new Relay(broker.port()));
        startAdapter(relay.port());
        awaitTopics(broker, 7);
        String load = BASE + "boiler-1/load";

        for (int value = 1; value <= 5; value++) {
            int expected = value;
            table.publish(site.points().get(0), TestPlant.real(value, clock.now()));
            await().atMost(LONG).until(() -> relay.occurrences("{\"value\":" + expected + ".0") == 1);
        }

        // The broker allows ten aliases, and a client that took them would name this topic once.
        assertThat(relay.occurrences(load)).isEqualTo(6);
        await().atMost(LONG).until(() -> broker.retained().valueOf(load).asInt() == 5);
    }

    @Test
    void aCutConnectionMakesTheBrokerSayThatTheBridgeIsDownUntilItIsBack() throws IOException {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        Relay relay = open(new Relay(broker.port()));
        MqttAdapter adapter = startAdapter(relay.port());
        awaitTopics(broker, 7);

        relay.cut();
        await().atMost(LONG).until(() -> bridgeState(broker).equals("down"));
        Delivered will = broker.retained().of(BRIDGE);
        assertThat(will.payload().toString()).isEqualTo("{\"state\":\"down\",\"reason\":\"connection-lost\"}");
        assertThat(will.expiry()).isEqualTo(-1);
        assertThat(adapter.state().orElseThrow().connected()).isFalse();

        relay.pass();
        await().atMost(LONG).until(() -> bridgeState(broker).equals("up"));
        adapter.close();
        awaitNoThreads();
    }

    @Test
    void aBrokerThatWasKilledAndStartsEmptyGetsEverythingAgain() {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        MqttAdapter adapter = startAdapter(broker.port());
        awaitTopics(broker, 7);

        broker.kill();
        await().atMost(LONG).until(() -> !adapter.state().orElseThrow().connected());
        table.publish(site.points().get(0), TestPlant.real(77, clock.now()));
        broker.startAgain();

        Retained retained = awaitTopics(broker, 7);
        assertThat(retained.valueOf(BASE + "boiler-1/load").asInt()).isEqualTo(77);
    }

    @Test
    void anAdapterThatStartsBeforeItsBrokerFindsItLater() {
        int port = Mosquitto.freePort();
        MqttAdapter adapter = startAdapter(port);
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().detail().contains("Connection refused"));

        Mosquitto broker = startBroker(port);

        awaitTopics(broker, 7);
    }

    @Test
    void theSecondBrokerIsTakenWhenTheFirstIsAway() {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        startAdapter(site, Mosquitto.freePort(), broker.port());

        awaitTopics(broker, 7);
    }

    @Test
    void aBrokerThatTakesTwoMessagesAtATimeGetsAThousandTopics() {
        Site large = TestPlant.siteOf(1_000);
        table = TestPlant.table(large);
        Mosquitto broker = startBroker(Mosquitto.freePort(), "max_inflight_messages 2", "max_queued_messages 0");
        startAdapter(large, broker.port());

        awaitTopics(broker, 1_002);
        for (int i = 0; i < 1_000; i++) {
            table.publish(large.points().get(i), TestPlant.whole(i, clock.now()));
        }
        await().atMost(LONG).until(() -> {
            Retained retained = broker.retained();
            return large.points().stream()
                    .allMatch(p ->
                            retained.valueOf(BASE + "boiler-1/" + p.definition().name())
                                            .asInt(-1)
                                    == p.ordinal());
        });
    }

    @Test
    void aTopicThatTheBrokerRefusesDoesNotHinderTheOthers() throws IOException {
        Path rules = Files.writeString(
                folder.resolve("acl"), "topic readwrite plant/heat/#\ntopic deny plant/heat/quillmere/boiler-1/load\n");
        Mosquitto broker = startBroker(Mosquitto.freePort(), "acl_file " + rules);
        MqttAdapter adapter = startAdapter(broker.port());

        Retained retained = awaitTopics(broker, 6);

        assertThat(retained.has(BASE + "boiler-1/load")).isFalse();
        assertThat(adapter.state().orElseThrow().connected()).isTrue();
    }

    @Test
    void closingSaysThatTheBridgeWasStoppedAndIsQuickAndMayBeRepeated() {
        Mosquitto broker = startBroker(Mosquitto.freePort());
        MqttAdapter adapter = startAdapter(broker.port());
        awaitTopics(broker, 7);

        long begin = clock.ticks();
        adapter.close();
        adapter.close();

        assertThat(clock.ticks() - begin).isLessThan(Duration.ofSeconds(2).toNanos());
        Delivered last = broker.retained().of(BRIDGE);
        assertThat(last.payload().get("state").asString()).isEqualTo("down");
        assertThat(last.payload().get("reason").asString()).isEqualTo("stopped");
        assertThat(last.expiry()).isEqualTo(-1);
        assertThatThrownBy(() -> adapter.start()).isInstanceOf(IllegalStateException.class);
        awaitNoThreads();
    }

    @Test
    void closingWithoutABrokerIsQuickToo() {
        MqttAdapter adapter = startAdapter(Mosquitto.freePort());
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().detail().contains("Connection refused"));

        long begin = clock.ticks();
        adapter.close();

        assertThat(clock.ticks() - begin).isLessThan(Duration.ofSeconds(1).toNanos());
        awaitNoThreads();
    }

    private Mosquitto startBroker(int port, String... lines) {
        return open(Mosquitto.start(folder, port, lines));
    }

    private MqttAdapter startAdapter(int port) {
        return startAdapter(site, port);
    }

    private MqttAdapter startAdapter(Site of, int... ports) {
        String[] brokers =
                IntStream.of(ports).mapToObj(port -> "mqtt://127.0.0.1:" + port).toArray(String[]::new);
        MqttAdapter adapter = open(new MqttAdapter(TestPlant.settings(brokers), of, table, clock));
        adapter.start();
        return adapter;
    }

    private <T extends AutoCloseable> T open(T closeable) {
        opened.push(closeable);
        return closeable;
    }

    private void fillTable() {
        table.publish(site.controllers().get(0), ControllerLink.up(clock.now()));
        for (int i = 0; i < site.points().size(); i++) {
            table.publish(site.points().get(i), TestPlant.real(100.5 + i, clock.now()));
        }
    }

    private static void awaitConnected(MqttAdapter adapter) {
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());
    }

    private static Retained awaitTopics(Mosquitto broker, int count) {
        return await().atMost(LONG)
                .until(() -> broker.retained(), retained -> retained.byTopic().size() >= count);
    }

    private static String bridgeState(Mosquitto broker) {
        return broker.retained().of(BRIDGE).payload().get("state").asString();
    }

    private static void awaitNoThreads() {
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(ClientThreads.running()).isEmpty());
    }
}
