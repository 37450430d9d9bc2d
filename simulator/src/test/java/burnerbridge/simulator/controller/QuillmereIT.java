package burnerbridge.simulator.controller;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.simulator.device.HandMadeClient;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.plant.Phase;
import java.io.IOException;
import java.net.InetAddress;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class QuillmereIT {
    private static final Instant BEGINS = Instant.parse("2026-11-28T09:30:00Z");
    private static final Quillmere.Places ANY = new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0);
    /** Register 1 of unit 3: phase and others in four bits each. */
    private static final String READ_STEAM = "000100000006" + "03" + "0300010001";
    /** Input register 1 of unit 2 behind the second door. */
    private static final String READ_PHASE_2 = "000100000006" + "02" + "0400640001";

    private final Quillmere plant = new Quillmere(ANY, 3, BEGINS);

    @BeforeEach
    void start() throws IOException {
        plant.freeze(true);
        plant.start();
    }

    @AfterEach
    void close() {
        plant.close();
    }

    @Test
    void twoPlantsOfOneSeedAndBeginningAreAlike() {
        try (Quillmere twin = new Quillmere(ANY, 3, BEGINS)) {
            for (String name : plant.names()) {
                assertThat(twin.controller(name).state())
                        .isEqualTo(plant.controller(name).state());
            }
        }
    }

    @Test
    void itRunsAtThePaceOfTheRealClockUnlessItIsFrozen() {
        BoilerState before = plant.controller(Quillmere.STEAM_1).state();
        plant.freeze(false);
        await().atMost(Duration.ofSeconds(20))
                .until(() -> !plant.controller(Quillmere.STEAM_1)
                        .state()
                        .at()
                        .isBefore(before.at().plusSeconds(1)));

        plant.freeze(true);

        // A step that had begun may end.
        Instant stopped = plant.controller(Quillmere.STEAM_1).state().at();
        await().during(Duration.ofMillis(400))
                .atMost(Duration.ofSeconds(5))
                .until(() -> !plant.controller(Quillmere.STEAM_1).state().at().isAfter(stopped.plus(Boiler.STEP)));
    }

    @Test
    void whatIsDoneAtABurnerShowsInItsRegistersAtOnce() throws IOException {
        try (HandMadeClient client = new HandMadeClient(plant.secondDoorPort())) {
            assertThat(client.ask(READ_PHASE_2, 11)).isEqualTo("000100000005" + "02" + "04020001");

            plant.controller(Quillmere.BOILER_2).act(QuillmereIT::waitForPurge);

            assertThat(client.ask(READ_PHASE_2, 11)).isEqualTo("000100000005" + "02" + "04020002");
        }
    }

    @Test
    void theSecondDoorShowsWhatTheAnnexShows() throws IOException {
        try (HandMadeClient annex = new HandMadeClient(plant.annexPort());
                HandMadeClient door = new HandMadeClient(plant.secondDoorPort())) {
            assertThat(door.ask(READ_STEAM, 11)).isEqualTo(annex.ask(READ_STEAM, 11));
        }
    }

    @Test
    void aTableThatAControllerHasNotAndALongReadAreRefused() throws IOException {
        try (HandMadeClient annex = new HandMadeClient(plant.annexPort())) {
            assertThat(annex.ask("000100000006" + "03" + "0100010001", 9)).isEqualTo("000100000003" + "03" + "8101");
            assertThat(annex.ask("000200000006" + "03" + "030000003D", 9)).isEqualTo("000200000003" + "03" + "8303");
            assertThat(annex.ask("000300000006" + "03" + "0300040001", 9)).isEqualTo("000300000003" + "03" + "8302");
        }
    }

    private static void waitForPurge(Boiler boiler) {
        while (boiler.state().phase() != Phase.PRE_PURGE) {
            boiler.step();
        }
    }
}
