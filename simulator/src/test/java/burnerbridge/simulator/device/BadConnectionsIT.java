package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.modbus.FixedImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.time.Duration;
import java.util.Map;
import java.util.Random;
import org.awaitility.Awaitility;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Connections that end, over Modbus TCP and through a device server. */
class BadConnectionsIT {
    private static final InetAddress HOST = InetAddress.getLoopbackAddress();
    private static final String TCP_REQUEST = "000100000006" + "1103006B0003";
    private static final int TCP_REPLY_LENGTH = 15;

    private static FieldDevice device(boolean rtu) throws IOException {
        FixedImage image = new FixedImage(ModbusTable.HOLDING_REGISTER, 107, 555, 0, 100);
        Door door = rtu ? new Door.RtuOverTcp(HOST, 0, RtuDeviceContract.RATE) : new Door.ModbusTcp(HOST, 0);
        FieldDevice device = new FieldDevice(door, Map.of(17, image), UnknownUnit.SILENT);
        device.start();
        return device;
    }

    private static Manners manners(Misbehaviour what, int number) {
        return what.manners(number, new Random(20261125));
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aConnectionEndsBeforeOrAfterAReply(boolean rtu) throws IOException {
        String request = rtu ? RtuDeviceContract.REQUEST : TCP_REQUEST;
        int length = rtu ? RtuDeviceContract.REPLY.length() / 2 : TCP_REPLY_LENGTH;
        try (FieldDevice device = device(rtu)) {
            device.behave(manners(Misbehaviour.HANG_UP_BEFORE, 0));
            try (HandMadeClient client = new HandMadeClient(device.port())) {
                client.send(request);
                assertThat(client.isCutOff()).isTrue();
            }
            device.behave(manners(Misbehaviour.HANG_UP_AFTER, 0));
            try (HandMadeClient client = new HandMadeClient(device.port())) {
                assertThat(client.ask(request, length)).contains("022B00000064");
                assertThat(client.isCutOff()).isTrue();
            }
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void connectionsAreRefusedForAWhileAndThenTakenAgain(boolean rtu) throws IOException {
        try (FieldDevice device = device(rtu)) {
            device.behave(manners(Misbehaviour.REFUSE, 800));
            try (HandMadeClient client = new HandMadeClient(device.port())) {
                client.send(rtu ? RtuDeviceContract.REQUEST : TCP_REQUEST);
                assertThat(client.isCutOff()).isTrue();
            }
            assertThatThrownBy(() -> new HandMadeClient(device.port())).isInstanceOf(ConnectException.class);
            Awaitility.await()
                    .atMost(Duration.ofSeconds(10))
                    .ignoreExceptions()
                    .untilAsserted(() -> new HandMadeClient(device.port()).close());
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aDeviceThatRefusesCanBeClosed(boolean rtu) throws IOException {
        FieldDevice device = device(rtu);
        device.behave(manners(Misbehaviour.REFUSE, 60_000));
        try (HandMadeClient client = new HandMadeClient(device.port())) {
            client.send(rtu ? RtuDeviceContract.REQUEST : TCP_REQUEST);
            assertThat(client.isCutOff()).isTrue();
        }
        long before = System.nanoTime();
        device.close();
        assertThat(Duration.ofNanos(System.nanoTime() - before)).isLessThan(Duration.ofMillis(900));
    }
}
