package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.modbus.FixedImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.BindException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ModbusTcpIT {
    private static final RegisterImage FIRST = new FixedImage(ModbusTable.HOLDING_REGISTER, 0, 0x1234, 0xFFFE);
    private static final RegisterImage SECOND = new FixedImage(ModbusTable.HOLDING_REGISTER, 0, 0x0007);
    private static final String READ_ONE = "000100000006" + "01" + "0300000001";
    private static final String ONE = "000100000005" + "01" + "03021234";

    private final FieldDevice server = server(UnknownUnit.REFUSED);

    @BeforeEach
    void start() throws IOException {
        server.start();
    }

    @AfterEach
    void close() {
        server.close();
    }

    @Test
    void aRequestIsAnsweredWithItsTransactionAndUnit() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            assertThat(client.ask("BEEF00000006" + "01" + "0300000002", 13))
                    .isEqualTo("BEEF00000007" + "01" + "03041234FFFE");
            assertThat(client.ask("BEF000000006" + "02" + "0300000001", 11))
                    .isEqualTo("BEF000000005" + "02" + "03020007");
        }
    }

    @Test
    void requestsInOnePacketAreAnsweredInTheirOrder() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            client.send(READ_ONE + "000200000006" + "02" + "0300000001");

            assertThat(client.receive(11)).isEqualTo(ONE);
            assertThat(client.receive(11)).isEqualTo("000200000005" + "02" + "03020007");
        }
    }

    @Test
    void aRequestInPiecesIsAnsweredOnceItIsWhole() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            client.send(READ_ONE.substring(0, 10));
            assertThat(client.hearsNothing()).isTrue();
            client.send(READ_ONE.substring(10));

            assertThat(client.receive(11)).isEqualTo(ONE);
        }
    }

    @Test
    void severalClientsAreServedSideBySide() throws IOException {
        try (HandMadeClient waiting = new HandMadeClient(server.port());
                HandMadeClient asking = new HandMadeClient(server.port())) {
            waiting.send(READ_ONE.substring(0, 4));

            assertThat(asking.ask(READ_ONE, 11)).isEqualTo(ONE);

            waiting.send(READ_ONE.substring(4));
            assertThat(waiting.receive(11)).isEqualTo(ONE);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"0500000000", "0600000001", "0F000000010101", "1000000001020001"})
    void aWriteIsRefusedAndChangesNothing(String write) throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            String length = String.format(java.util.Locale.ROOT, "%04X", write.length() / 2 + 1);
            int function = Integer.parseInt(write.substring(0, 2), 16);

            assertThat(client.ask("00010000" + length + "01" + write, 9))
                    .isEqualTo(String.format(java.util.Locale.ROOT, "00010000000301%02X01", function | 0x80));
            assertThat(client.ask(READ_ONE, 11)).isEqualTo(ONE);
        }
    }

    @Test
    void anUnknownUnitIsRefusedAsByAGateway() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            assertThat(client.ask("000100000006" + "09" + "0300000001", 9)).isEqualTo("000100000003" + "09" + "830B");
        }
    }

    @Test
    void anUnknownUnitCanBeSilentInstead() throws IOException {
        try (FieldDevice silent = server(UnknownUnit.SILENT)) {
            silent.start();
            try (HandMadeClient client = new HandMadeClient(silent.port())) {
                client.send("000100000006" + "09" + "0300000001");

                assertThat(client.hearsNothing()).isTrue();
                assertThat(client.ask(READ_ONE, 11)).isEqualTo(ONE);
            }
        }
    }

    @Test
    void aFrameOfAnotherProtocolIsPassedOver() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            client.send("000700010006" + "01" + "0300000001");

            assertThat(client.hearsNothing()).isTrue();
            assertThat(client.ask(READ_ONE, 11)).isEqualTo(ONE);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"000100000000", "000100000001" + "01", "0001000000FF" + "01"})
    void aLengthThatCannotBeOneEndsTheConnection(String header) throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            client.send(header);

            assertThat(client.isCutOff()).isTrue();
        }
    }

    @Test
    void aStoppedServerCutsItsClientsOffAndRefusesNewOnes() throws IOException {
        try (HandMadeClient client = new HandMadeClient(server.port())) {
            client.ask(READ_ONE, 11);
            int port = server.port();

            server.stop();

            assertThat(client.isCutOff()).isTrue();
            assertThatThrownBy(() -> new HandMadeClient(port)).isInstanceOf(ConnectException.class);
        }
    }

    @Test
    void aStoppedServerStartsAgainOnItsPort() throws IOException {
        int port = server.port();
        try (HandMadeClient client = new HandMadeClient(port)) {
            client.ask(READ_ONE, 11);
            server.stop();
        }

        server.start();

        assertThat(server.port()).isEqualTo(port);
        try (HandMadeClient client = new HandMadeClient(port)) {
            assertThat(client.ask(READ_ONE, 11)).isEqualTo(ONE);
        }
    }

    @Test
    void withItsCablePulledItTakesClientsAndIsSilent() throws IOException {
        try (HandMadeClient before = new HandMadeClient(server.port())) {
            server.pullCable();
            try (HandMadeClient after = new HandMadeClient(server.port())) {
                before.send(READ_ONE);
                after.send(READ_ONE);

                assertThat(before.hearsNothing()).isTrue();
                assertThat(after.hearsNothing()).isTrue();

                server.plugCableIn();
                assertThat(before.ask(READ_ONE, 11)).isEqualTo(ONE);
            }
        }
    }

    @Test
    void aPortThatIsTakenIsSaid() {
        FieldDevice second = new FieldDevice(
                new Door.ModbusTcp(InetAddress.getLoopbackAddress(), server.port()),
                Map.of(1, FIRST),
                UnknownUnit.REFUSED);

        assertThatThrownBy(second::start).isInstanceOf(BindException.class);
    }

    @Test
    void aClosedServerDoesNotStartAgain() {
        server.close();

        assertThatThrownBy(server::start).isInstanceOf(IllegalStateException.class);
    }

    private static FieldDevice server(UnknownUnit unknown) {
        return new FieldDevice(
                new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), Map.of(1, FIRST, 2, SECOND), unknown);
    }
}
