package burnerbridge.simulator.controller;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.device.HandMadeClient;
import java.io.IOException;
import java.net.InetAddress;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The plant, told by writes what the plant above wants. */
class WrittenPlantIT {
    /** Holding register 0x0500 of unit 3 to 45 %. */
    private static final String LIMIT_STEAM = "000100000006" + "03" + "06050001C2";
    /** Coil 17 of unit 1 off. The checksums are those of the message library. */
    private static final String HOLD_BOILER_1 = "010500100000CC0F";

    private final Quillmere plant = new Quillmere(
            new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0), 3, Instant.parse("2026-11-28T09:30:00Z"));

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
    void atFirstItTakesNoWrites() throws IOException {
        try (HandMadeClient annex = new HandMadeClient(plant.annexPort())) {
            assertThat(annex.ask(LIMIT_STEAM, 9)).isEqualTo("000100000003" + "03" + "8601");
        }
        assertThat(plant.controller(Quillmere.STEAM_1).state().loadLimit()).isEqualTo(100);
        assertThat(plant.written(Quillmere.STEAM_1)).singleElement().matches(frame -> !frame.done());
    }

    @Test
    void theLoadLimitIsObeyedAndShownInBothItsTables() throws IOException {
        plant.acceptWrites(true);
        try (HandMadeClient annex = new HandMadeClient(plant.annexPort())) {
            assertThat(annex.ask(LIMIT_STEAM, 12)).isEqualTo(LIMIT_STEAM);
            assertThat(annex.ask("000200000006" + "03" + "0305000001", 11))
                    .isEqualTo("000200000005" + "03" + "030201C2");
            assertThat(annex.ask("000300000006" + "03" + "0405000001", 11))
                    .isEqualTo("000300000005" + "03" + "040201C2");
        }
        assertThat(plant.controller(Quillmere.STEAM_1).state().loadLimit()).isEqualTo(45);
        assertThat(plant.written(Quillmere.STEAM_1)).singleElement().matches(frame -> frame.done());
        assertThat(plant.written(Quillmere.BOILER_1)).isEmpty();
    }

    @Test
    void theReleaseIsObeyed() throws IOException {
        plant.acceptWrites(true);
        try (HandMadeClient house = new HandMadeClient(plant.boilerHousePort())) {
            assertThat(house.ask(HOLD_BOILER_1, 8)).isEqualTo(HOLD_BOILER_1);
        }
        assertThat(plant.controller(Quillmere.BOILER_1).state().released()).isFalse();
        assertThat(plant.written(Quillmere.BOILER_1)).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource({"0605000400, 8603, more than 100 %", "0600110001, 8602, what is measured", "0500000000, 8501, no coils"
    })
    void whatElseIsWrittenIsRefused(String pdu, String reply, String what) throws IOException {
        plant.acceptWrites(true);
        try (HandMadeClient annex = new HandMadeClient(plant.annexPort())) {
            assertThat(annex.ask("000100000006" + "03" + pdu, 9))
                    .as(what)
                    .startsWith("000100000003" + "03" + reply.substring(0, 2));
        }
        assertThat(plant.written(Quillmere.STEAM_1)).noneMatch(frame -> frame.done());
    }

    @Test
    void throughTheSecondDoorNothingIsWritten() throws IOException {
        plant.acceptWrites(true);
        try (HandMadeClient door = new HandMadeClient(plant.secondDoorPort())) {
            assertThat(door.ask(LIMIT_STEAM, 9)).isEqualTo("000100000003" + "03" + "8601");
        }
        assertThat(plant.controller(Quillmere.STEAM_1).state().loadLimit()).isEqualTo(100);
    }
}
