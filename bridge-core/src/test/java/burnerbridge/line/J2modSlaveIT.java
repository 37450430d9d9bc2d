package burnerbridge.line;

import burnerbridge.site.LineDefinition;
import com.fazecast.jSerialComm.SerialPort;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.net.InetAddress;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Nested;

/** The slave of the message library, on each transport. */
class J2modSlaveIT {

    abstract static class J2modSlave extends IndependentSlaveContract {
        private @Nullable ModbusSlave slave;

        void open(ModbusSlave made) throws Exception {
            SimpleProcessImage image = new SimpleProcessImage(UNIT.number());
            for (int i = 0; i < ADDRESSES; i++) {
                image.addRegister(new SimpleRegister(i * 500));
                image.addInputRegister(new SimpleInputRegister(65535 - i));
                image.addDigitalOut(new SimpleDigitalOut(i % 3 == 0));
                image.addDigitalIn(new SimpleDigitalIn(i % 2 == 0));
            }
            made.addProcessImage(UNIT.number(), image);
            made.open();
            slave = made;
        }

        int openOnTcp(boolean rtu) throws Exception {
            int port = freePort();
            open(ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, rtu));
            return port;
        }

        @Override
        void endSlave() {
            ModbusSlaveFactory.close(slave);
        }
    }

    @Nested
    class OnTcp extends J2modSlave {
        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            return new LineDefinition.Tcp("127.0.0.1", openOnTcp(false));
        }
    }

    @Nested
    class OnRtuOverTcp extends J2modSlave {
        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            return new LineDefinition.RtuOverTcp("127.0.0.1", openOnTcp(true), 115200);
        }
    }

    @Nested
    class OnASerialPort extends J2modSlave {
        private @Nullable PtyPair cable;

        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            PtyPair pair = new PtyPair(folder);
            cable = pair;
            SerialParameters parameters = new SerialParameters();
            parameters.setPortName(pair.theirs.toString());
            parameters.setBaudRate(9600);
            parameters.setDatabits(8);
            parameters.setParity(SerialPort.NO_PARITY);
            parameters.setStopbits(SerialPort.ONE_STOP_BIT);
            parameters.setEncoding("rtu");
            open(ModbusSlaveFactory.createSerialSlave(parameters));
            return SerialTransportIT.serial(pair.ours, false);
        }

        @Override
        void endSlave() {
            super.endSlave();
            if (cable != null) {
                cable.close();
            }
        }
    }
}
