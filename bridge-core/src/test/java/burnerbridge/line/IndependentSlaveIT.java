package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Against the slave of the message library, whose framing is not ours. */
class IndependentSlaveIT {
    private static final UnitId UNIT = new UnitId(3);

    private ModbusSlave slave;
    private LineTransport transport;

    @BeforeEach
    void start() throws Exception {
        int port;
        try (ServerSocket socket = new ServerSocket(0)) {
            port = socket.getLocalPort();
        }
        slave = ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, false);
        SimpleProcessImage image = new SimpleProcessImage(UNIT.number());
        for (int i = 0; i < 130; i++) {
            image.addRegister(new SimpleRegister(i * 500));
            image.addInputRegister(new SimpleInputRegister(65535 - i));
            image.addDigitalOut(new SimpleDigitalOut(i % 3 == 0));
            image.addDigitalIn(new SimpleDigitalIn(i % 2 == 0));
        }
        slave.addProcessImage(UNIT.number(), image);
        slave.open();
        transport = LineTransportContract.transport(new LineDefinition.Tcp("127.0.0.1", port), Duration.ofSeconds(5));
    }

    @AfterEach
    void end() {
        transport.close();
        ModbusSlaveFactory.close(slave);
    }

    private Registers read(RegisterTable table, int first, int count) {
        return ((Outcome.Answered) transport.read(new ReadRequest(UNIT, table, first, count))).data();
    }

    @Test
    void everyTableIsReadAtItsOwnAddresses() {
        assertThat(read(RegisterTable.HOLDING_REGISTER, 101, 2)).isEqualTo(Registers.of(50500, 51000));
        assertThat(read(RegisterTable.INPUT_REGISTER, 7, 1)).isEqualTo(Registers.of(65528));
        assertThat(read(RegisterTable.COIL, 8, 3)).isEqualTo(Registers.of(0, 1, 0));
        assertThat(read(RegisterTable.DISCRETE_INPUT, 11, 2)).isEqualTo(Registers.of(0, 1));
    }

    @Test
    void theLargestReadIsAnswered() {
        Registers all = read(RegisterTable.HOLDING_REGISTER, 0, 125);
        assertThat(all.count()).isEqualTo(125);
        assertThat(all.word(124)).isEqualTo(62000);
    }

    @Test
    void anAddressThatIsNotThereIsRefused() {
        Outcome outcome = transport.read(new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 500, 1));
        assertThat(((Outcome.Refused) outcome).code()).isEqualTo(2);
    }
}
