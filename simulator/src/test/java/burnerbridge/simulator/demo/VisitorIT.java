package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.demo.Visitor.Wish;
import burnerbridge.simulator.plant.Cause;
import burnerbridge.simulator.plant.Phase;
import burnerbridge.simulator.plant.fire.Fuel;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Every key, on a plant that stands still and a real broker. */
class VisitorIT {
    private final Instant begins = Instant.parse("2026-11-28T09:30:00Z");
    private Quillmere plant;
    private Stage stage;
    private Visitor visitor;
    private int broker;

    @BeforeEach
    void start() throws Exception {
        Ports ports = Ports.ANY.orFreeOnes();
        broker = ports.mqtt();
        plant = new Quillmere(ports.ofPlant(), 3, begins);
        plant.freeze(true);
        plant.start();
        stage = new Stage(plant, broker, Clock.systemUTC());
        stage.startBroker();
        visitor = new Visitor(stage);
    }

    @AfterEach
    void close() throws Exception {
        stage.close();
        plant.close();
    }

    @Test
    void numbersChooseABoiler() throws Exception {
        press("3");
        assertThat(stage.chosen()).isEqualTo("steam-1");
        press("2");
        assertThat(stage.chosen()).isEqualTo("boiler-2");
    }

    @Test
    void theCableGoesOutAndIn() throws Exception {
        press("2c");
        assertThat(stage.isCableOut("boiler-2")).isTrue();
        assertThat(stage.told()).contains("cable of boiler-2 is out");
        press("c");
        assertThat(stage.isCableOut("boiler-2")).isFalse();
        assertThat(stage.told()).contains("in again");
    }

    @Test
    void aBurnerThatFiresIsLockedOutAndReset() throws Exception {
        stepTo(Phase.MODULATION);
        press("r");
        assertThat(stage.told()).contains("nothing to reset");
        press("l");
        assertThat(stage.told()).contains("The flame of boiler-1 goes out");
        stepTo(Phase.LOCKOUT);
        press("l");
        assertThat(stage.told()).contains("has locked out: flame lost");
        press("r");
        assertThat(stage.told()).contains("writes nothing");
        assertThat(stage.state("boiler-1").phase()).isEqualTo(Phase.STANDBY);
    }

    @Test
    void aBurnerAtRestLocksOutTooByItsHighLimit() throws Exception {
        stepTo(Phase.STANDBY);
        press("l");
        assertThat(stage.told()).contains("high limit of boiler-1 opens");
        stepTo(Phase.LOCKOUT);
        assertThat(stage.state("boiler-1").cause()).isEqualTo(Cause.HIGH_LIMIT);
    }

    @Test
    void onlyTheSteamBoilerHasTwoFuels() throws Exception {
        press("f");
        assertThat(stage.told()).contains("burns gas alone");
        press("3f");
        assertThat(stage.state("steam-1").chosen()).isEqualTo(Fuel.OIL);
        press("f");
        assertThat(stage.state("steam-1").chosen()).isEqualTo(Fuel.GAS);
    }

    @Test
    void theBrokerStopsAndStartsAndIsHeardAgain() throws Exception {
        publish("before");
        await().atMost(Duration.ofSeconds(60))
                .until(() -> stage.published("boiler-1", "phase").isPresent());
        press("b");
        assertThat(stage.isBrokerRunning()).isFalse();
        assertThat(stage.published("boiler-1", "phase")).isPresent();

        press("b");

        assertThat(stage.isBrokerRunning()).isTrue();
        publish("after");
        await().atMost(Duration.ofSeconds(60))
                .until(() -> stage.published("boiler-1", "phase")
                        .filter(p -> p.value().equals("after"))
                        .isPresent());
    }

    @Test
    void thePlantStandsStillAndRunsOn() throws Exception {
        press("z");
        assertThat(stage.isFrozen()).isFalse();
        press("z");
        assertThat(stage.isFrozen()).isTrue();
    }

    @Test
    void otherKeysAreNamedAndSomeLeaveTheView() throws Exception {
        assertThat(visitor.press('x')).isEqualTo(Wish.GO_ON);
        assertThat(stage.told()).isEqualTo("There is no key x.");
        assertThat(visitor.press('?')).isEqualTo(Wish.SHOW_OPENING);
        assertThat(visitor.press('q')).isEqualTo(Wish.END);
    }

    private void press(String keys) throws Exception {
        for (char key : keys.toCharArray()) {
            assertThat(visitor.press(key)).isEqualTo(Wish.GO_ON);
        }
    }

    private void stepTo(Phase phase) {
        plant.controller("boiler-1").act(boiler -> {
            for (int steps = 0; boiler.state().phase() != phase; steps++) {
                assertThat(steps).isLessThan(10_000);
                boiler.step();
            }
        });
    }

    private void publish(String value) throws Exception {
        MqttClient client = new MqttClient("tcp://127.0.0.1:" + broker, "visitor-test", new MemoryPersistence());
        client.connect();
        byte[] payload = ("{\"value\": \"" + value + "\", \"quality\": \"good\"}").getBytes(StandardCharsets.UTF_8);
        client.publish("plant/quillmere/boiler-1/phase", payload, 1, true);
        client.disconnect();
        client.close();
    }
}
