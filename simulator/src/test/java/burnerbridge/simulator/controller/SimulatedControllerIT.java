package burnerbridge.simulator.controller;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.simulator.device.HandMadeClient;
import burnerbridge.simulator.plant.Burner;
import burnerbridge.simulator.plant.BurnerSettings;
import burnerbridge.simulator.plant.Phase;
import java.io.IOException;
import java.net.InetAddress;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class SimulatedControllerIT {
    private static final String READ_PHASE = "000100000006" + "05" + "0400000001";
    private static final String STANDBY = "000100000005" + "05" + "04020000";
    private static final String PRE_PURGE = "000100000005" + "05" + "0402000C";

    private final SimulatedController controller =
            new SimulatedController("boiler-5", InetAddress.getLoopbackAddress(), 0, 5, BurnerSettings.brisk(), 3);

    @BeforeEach
    void start() throws IOException {
        controller.start();
    }

    @AfterEach
    void close() {
        controller.close();
    }

    @Test
    void itRunsAtThePaceOfTheRealClock() {
        await().atMost(Duration.ofSeconds(5))
                .until(() -> controller.state().inPhase().compareTo(Duration.ofSeconds(1)) >= 0);
    }

    @Test
    void whatIsDoneAtTheBurnerShowsInItsRegistersAtOnce() throws IOException {
        try (HandMadeClient client = new HandMadeClient(controller.server().port())) {
            assertThat(client.ask(READ_PHASE, 11)).isEqualTo(STANDBY);

            controller.act(SimulatedControllerIT::waitForPurge);

            assertThat(client.ask(READ_PHASE, 11)).isEqualTo(PRE_PURGE);
        }
    }

    @Test
    void aClosedOneStandsStill() {
        controller.close();
        Duration before = controller.state().inPhase();

        await().during(Duration.ofMillis(400))
                .atMost(Duration.ofSeconds(2))
                .until(() -> controller.state().inPhase().equals(before));
    }

    private static void waitForPurge(Burner burner) {
        while (burner.state().phase() != Phase.PRE_PURGE) {
            burner.step();
        }
    }
}
