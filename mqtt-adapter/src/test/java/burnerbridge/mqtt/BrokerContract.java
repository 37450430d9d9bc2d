package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.model.TextValue;
import burnerbridge.mqtt.Subscriber.Delivered;
import burnerbridge.mqtt.Subscriber.Listening;
import burnerbridge.mqtt.Subscriber.Retained;
import burnerbridge.mqtt.broker.ClientThreads;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** What holds with every broker and both versions; {@code mosquitto_sub} looks at it. */
abstract class BrokerContract {
    static final Duration LONG = Duration.ofSeconds(20);
    static final String BASE = "plant/heat/quillmere/";
    private static final String BRIDGE = BASE + "_self/link";
    private static final String HOSTILE = "a/b+#$\"\\\u0001\u007f\t\n \u2028\u2029 \u0436\u4e2d\u05d0 \ud83d\udd25 <x>";

    private final RealClock clock = new RealClock();
    private final Site site = TestPlant.site(
            2,
            TestPlant.point("load", Unit.of("%"), Duration.ofMinutes(5), "0", States.NONE),
            TestPlant.point(
                    "serial",
                    new PointFormat.Text(4, WordOrder.HIGH_WORD_FIRST),
                    Scaling.NONE,
                    Unit.NONE,
                    States.NONE));
    private ValueTable table = TestPlant.table(site);
    private RunningBroker broker;

    @TempDir
    Path folder;

    /** What a test opened, newest first. */
    private final Deque<AutoCloseable> opened = new ArrayDeque<>();

    /** A broker with everything that its door needs in {@link #folder}. */
    abstract RunningBroker startBroker(Site of);

    /** How a bridge comes in at a port, which may be a relay's. */
    abstract MqttSettings settings(int port);

    /** How somebody who may read comes in. */
    abstract List<String> readersOptions();

    /** Whether a broker drops a message whose time is over. */
    abstract boolean messagesExpire();

    @BeforeEach
    void start() {
        Mosquitto.require();
        broker = open(startBroker(site));
    }

    @AfterEach
    void closeAll() throws Exception {
        for (AutoCloseable closeable : opened) {
            closeable.close();
        }
    }

    @Test
    void whoComesLaterFindsEveryStateAndDescriptionAndNoEvent() {
        table.publish(site.points().get(0), TestPlant.real(42.5, clock.now()));
        table.publish(site.controllers().get(0), ControllerLink.up(clock.now()));
        startAdapter(site, broker.port());

        Retained retained = awaitTopics(10);

        assertThat(retained.byTopic().keySet())
                .containsExactlyInAnyOrder(
                        BRIDGE,
                        BASE + "_self/about",
                        BASE + "boiler-1/link",
                        BASE + "boiler-1/about",
                        BASE + "boiler-1/load",
                        BASE + "boiler-1/serial",
                        BASE + "boiler-2/link",
                        BASE + "boiler-2/about",
                        BASE + "boiler-2/load",
                        BASE + "boiler-2/serial");
        Delivered load = retained.of(BASE + "boiler-1/load");
        assertThat(load.quality()).isEqualTo(1);
        assertThat(load.payload().get("value").decimalValue()).isEqualByComparingTo("42.5");
        assertThat(load.payload().get("validFor").asLong()).isBetween(280L, 300L);
        assertThat(load.expiry()).isBetween(messagesExpire() ? 270L : -1L, messagesExpire() ? 300L : -1L);
        JsonNode about = retained.of(BASE + "boiler-1/about").payload();
        assertThat(about.at("/points/0/name").asString()).isEqualTo("load");
        assertThat(about.at("/points/0/unit").asString()).isEqualTo("%");
        assertThat(about.get("start").asString())
                .isEqualTo(retained.of(BRIDGE).payload().get("start").asString());
    }

    @Test
    void aControllerLostAndBackIsHeardAsEventsThatNobodyKeeps() {
        try (Listening listening = subscriber().listen(BASE + "+/events")) {
            MqttAdapter adapter = startAdapter(site, broker.port());
            await().atMost(LONG).until(() -> events(listening).equals(List.of("started")));
            String first = listening.heard().get(0).payload().get("id").asString();

            table.publish(site.controllers().get(1), ControllerLink.down(Cause.NO_REPLY, "silent", clock.now()));
            await().atMost(LONG).until(() -> events(listening).size() == 2);
            table.publish(site.controllers().get(1), ControllerLink.up(clock.now()));
            await().atMost(LONG).until(() -> events(listening).size() == 3);
            adapter.close();
            startAdapter(site, broker.port());
            await().atMost(LONG).until(() -> events(listening).size() == 5);

            assertThat(events(listening))
                    .containsExactly("started", "communication-lost", "communication-back", "stopped", "started");
            assertThat(listening.heard()).noneMatch(Delivered::retained);
            assertThat(listening.heard().stream().map(d -> d.payload().get("id").asString()))
                    .doesNotHaveDuplicates()
                    .startsWith(first);
        }
    }

    @Test
    void whatIsRemovedFromTheSiteIsClearedAtTheNextStartAndNothingElse() {
        MqttAdapter before = startAdapter(site, broker.port());
        awaitTopics(10);
        before.close();
        keep("other", BASE + "boiler-1/note");
        keep("other", BASE + "elsewhere/about");

        table = TestPlant.table(TestPlant.part(site, 1, 1));
        startAdapter(TestPlant.part(site, 1, 1), broker.port());

        await().atMost(LONG)
                .untilAsserted(
                        () -> assertThat(subscriber().retained().byTopic().keySet())
                                .containsExactlyInAnyOrder(
                                        BRIDGE,
                                        BASE + "_self/about",
                                        BASE + "boiler-1/link",
                                        BASE + "boiler-1/about",
                                        BASE + "boiler-1/load",
                                        BASE + "boiler-1/note",
                                        BASE + "elsewhere/about"));
    }

    @Test
    void aCutConnectionMakesTheBrokerSayThatTheBridgeIsDownUntilItIsBack() throws IOException {
        Relay relay = open(new Relay(broker.port()));
        MqttAdapter adapter = startAdapter(site, relay.port());
        awaitTopics(10);

        relay.cut();
        await().atMost(LONG).until(() -> bridgeState().equals("down"));
        assertThat(subscriber().retained().of(BRIDGE).payload().toString())
                .isEqualTo("{\"state\":\"down\",\"reason\":\"connection-lost\"}");
        relay.pass();
        await().atMost(LONG).until(() -> bridgeState().equals("up"));

        adapter.close();
        assertThat(subscriber().retained().of(BRIDGE).payload().get("reason").asString())
                .isEqualTo("stopped");
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(ClientThreads.running()).isEmpty());
    }

    @Test
    void withinItsValidityNobodyCanTakeAValueOfADeadBridgeForGood() throws IOException {
        Site shortLived =
                TestPlant.site(1, TestPlant.point("load", Unit.of("%"), Duration.ofSeconds(12), "0", States.NONE));
        table = TestPlant.table(shortLived);
        Relay relay = open(new Relay(broker.port()));
        startAdapter(shortLived, relay.port());
        await().atMost(LONG).until(() -> {
            table.publish(shortLived.points().get(0), TestPlant.real(42, clock.now()));
            Retained retained = subscriber().retained();
            return isWhole(retained)
                    && retained.has(BASE + "boiler-1/load")
                    && retained.valueOf(BASE + "boiler-1/load").asInt() == 42;
        });

        relay.cut();

        // The looks of a busy machine take their time, but less than twice the validity.
        await().atMost(Duration.ofSeconds(24)).until(() -> {
            Retained retained = subscriber().retained();
            if (!isWhole(retained)) {
                return false;
            }
            return retained.has(BASE + "boiler-1/load")
                    ? !messagesExpire()
                            && isOver(retained.of(BASE + "boiler-1/load").payload())
                    : messagesExpire();
        });
    }

    /** A look that was cut short shows nothing, or a part: these never expire. */
    private static boolean isWhole(Retained retained) {
        return retained.has(BRIDGE) && retained.has(BASE + "_self/about") && retained.has(BASE + "boiler-1/about");
    }

    @Test
    void aBrokerThatWasKilledAndStartsEmptyGetsEverythingAgain() {
        MqttAdapter adapter = startAdapter(site, broker.port());
        awaitTopics(10);

        broker.kill();
        await().atMost(LONG).until(() -> !adapter.state().orElseThrow().connected());
        table.publish(site.points().get(0), TestPlant.real(77, clock.now()));
        broker.startAgain();

        Retained retained = awaitTopics(10);
        assertThat(retained.valueOf(BASE + "boiler-1/load").asInt()).isEqualTo(77);
    }

    @Test
    void hostileTextsArriveAsTheyAre() {
        String text = HOSTILE + "x".repeat(30_000);
        table.publish(site.points().get(1), Reading.good(new TextValue(text), clock.now(), Registers.of(0)));
        table.publish(site.controllers().get(0), ControllerLink.down(Cause.LINE_DOWN, HOSTILE, clock.now()));
        startAdapter(site, broker.port());

        Retained retained = awaitTopics(10);
        assertThat(retained.valueOf(BASE + "boiler-1/serial").asString()).isEqualTo(text);
        assertThat(retained.of(BASE + "boiler-1/link").payload().get("detail").asString())
                .isEqualTo(HOSTILE);
    }

    private static boolean isOver(JsonNode payload) {
        Instant end = Instant.parse(payload.get("sentAt").asString())
                .plusSeconds(payload.get("validFor").asLong());
        return new RealClock().now().wall().isAfter(end);
    }

    private static List<String> events(Listening listening) {
        return listening.heard().stream()
                .map(d -> d.payload().get("event").asString())
                .toList();
    }

    private String bridgeState() {
        return subscriber().retained().of(BRIDGE).payload().get("state").asString();
    }

    private Subscriber subscriber() {
        return new Subscriber(broker.port(), readersOptions());
    }

    /** Somebody else leaves a message. */
    private void keep(String user, String topic) {
        subscriber().publish(othersOptions(user), topic, "{\"site\":\"quillmere\"}");
    }

    /** How somebody else comes in who may write. */
    List<String> othersOptions(String user) {
        return List.of();
    }

    private MqttAdapter startAdapter(Site of, int port) {
        MqttAdapter adapter = open(new MqttAdapter(settings(port), of, table, clock));
        adapter.start();
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());
        return adapter;
    }

    private Retained awaitTopics(int count) {
        return await().atMost(LONG)
                .until(
                        () -> subscriber().retained(),
                        retained -> retained.byTopic().size() >= count);
    }

    private <T extends AutoCloseable> T open(T closeable) {
        opened.push(closeable);
        return closeable;
    }
}
