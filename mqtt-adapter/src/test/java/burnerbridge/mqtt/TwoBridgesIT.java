package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.broker.BrokerException;
import burnerbridge.simulator.broker.EmbeddedBroker;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Two whole adapters with one client identifier at real brokers, by a clock that hurries. */
final class TwoBridgesIT {
    private static final Duration LONG = Duration.ofSeconds(30);
    /** Slow enough that a broker's answer is not missed within ten seconds of it. */
    private static final int TIMES = 20;

    @TempDir
    Path folder;

    /** Five minutes of it are a quarter of one. */
    private static final class HurryingClock implements BridgeClock {
        private final BridgeClock real = new RealClock();
        private final Stamp begin = real.now();

        private long passed() {
            return TIMES * begin.ageAt(real.ticks());
        }

        @Override
        public long ticks() {
            return begin.ticks() + passed();
        }

        @Override
        public Stamp now() {
            long passed = passed();
            return new Stamp(begin.ticks() + passed, begin.wall().plusNanos(passed), true);
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void atMosquittoTheyBackOff(boolean five) {
        Mosquitto.require();
        try (Mosquitto broker = Mosquitto.start(folder, Mosquitto.freePort())) {
            assertTheyBackOff(settings(broker.port(), five));
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void atTheEmbeddedBrokerTheyBackOff(boolean five) throws BrokerException {
        try (EmbeddedBroker broker = new EmbeddedBroker(InetAddress.getLoopbackAddress(), 0)) {
            broker.start();
            assertTheyBackOff(settings(broker.port(), five));
        }
    }

    private static MqttSettings settings(int port, boolean five) {
        String broker = "tcp://127.0.0.1:" + port;
        return five ? TestPlant.settings(broker) : TestPlant.olderSettings(broker);
    }

    private static void assertTheyBackOff(MqttSettings settings) {
        OutsideProgram.onlyOnce();
        HurryingClock clock = new HurryingClock();
        Site site = TestPlant.siteOf(2);
        try (MqttAdapter first = new MqttAdapter(settings, site, TestPlant.table(site), clock);
                MqttAdapter second = new MqttAdapter(settings, site, TestPlant.table(site), clock)) {
            first.start();
            await().atMost(LONG).until(() -> connections(first) == 1);
            second.start();
            Stamp begin = clock.now();
            await().atMost(Duration.ofMinutes(2))
                    .until(() ->
                            begin.ageAt(clock.ticks()) >= Duration.ofMinutes(5).toNanos());

            double all = connections(first) + connections(second);
            // By the pauses of 30 s, 1 and 2 min of both, and the turns that they need where the broker is silent.
            assertThat(all)
                    .as(() -> Told.figures(first) + " and " + Told.figures(second))
                    .isBetween(4.0, 14.0);
            assertThat(Told.sentences(first))
                    .singleElement()
                    .asString()
                    .contains("as burner-bridge-quillmere")
                    .contains("look at a second bridge with this site's name or its mqtt.client-id");
            second.close();
            await().atMost(LONG).until(() -> first.state().orElseThrow().connected());
            await().atMost(LONG)
                    .untilAsserted(() -> assertThat(Told.troubles(first)).isEmpty());
            assertThat(Told.figures(first)).containsEntry("burner_bridge_mqtt_connected[]", 1.0);
        }
    }

    private static double connections(MqttAdapter adapter) {
        return Told.figures(adapter).getOrDefault("burner_bridge_mqtt_connections[]", 0.0);
    }

    @Test
    void beforeTheStartNothingIsToldAndNothingCounted() {
        Site site = TestPlant.siteOf(1);
        try (MqttAdapter adapter =
                new MqttAdapter(settings(1, true), site, TestPlant.table(site), new HurryingClock())) {
            assertThat(Told.troubles(adapter)).isEmpty();
            assertThat(Told.figures(adapter)).isEmpty();
        }
    }
}
