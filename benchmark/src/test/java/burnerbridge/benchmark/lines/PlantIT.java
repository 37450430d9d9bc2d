package burnerbridge.benchmark.lines;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.benchmark.measure.MachineClock;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

class PlantIT {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ");

    /** Registers 5 and 6, which hold their addresses; hand-made after Modbus Application Protocol V1.1b3, 6.3. */
    private static final String REQUEST = "00 01 00 00 00 06 01 03 00 05 00 02";

    private static final String REPLY = "00 01 00 00 00 07 01 03 04 00 05 00 06";

    private final MachineClock clock = new MachineClock();

    @Test
    void everyPortAnswersWithTheAddressesOfItsRegisters() throws IOException {
        Load load = new Load(2, 10, 1);
        try (Plant plant = Plant.open(load, clock)) {
            for (int port : plant.ports()) {
                assertThat(answer(port, REQUEST)).isEqualTo(REPLY);
            }
            assertThat(plant.arrivals().isComplete()).isTrue();
            assertThat(plant.arrivals().seenUntil(clock.ticks()).reads()).isEqualTo(load.lines());
        }
    }

    @Test
    void aRequestMayComeInPieces() throws IOException {
        try (Plant plant = Plant.open(new Load(1, 10, 1), clock)) {
            assertThat(answer(plant.ports().get(0), REQUEST.substring(0, 14), REQUEST.substring(15)))
                    .isEqualTo(REPLY);
        }
    }

    @Test
    void aWriteEndsTheConnection() throws IOException {
        try (Plant plant = Plant.open(new Load(1, 10, 1), clock)) {
            assertThat(answer(plant.ports().get(0), "00 01 00 00 00 06 01 06 00 01 00 03"))
                    .isEmpty();
        }
    }

    private static String answer(int port, String... pieces) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            socket.setTcpNoDelay(true);
            socket.setSoTimeout(5_000);
            for (String piece : pieces) {
                socket.getOutputStream().write(HEX.parseHex(piece));
            }
            return HEX.formatHex(socket.getInputStream().readNBytes(13));
        }
    }
}
