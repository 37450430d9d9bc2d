package burnerbridge.daemon.strict;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.site.LineDefinition;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.net.InetAddress;

class StrictTcpIT extends StrictnessContract {

    @Override
    Transport transport() {
        return Transport.MODBUS_TCP;
    }

    @Override
    Door newDoor(int lane, int baud) {
        return new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0);
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device, Door door) {
        return new LineDefinition.Tcp("127.0.0.1", device.port());
    }

    @Override
    AbstractModbusMaster libraryMaster(FieldDevice device, Door door) {
        return new ModbusTCPMaster("127.0.0.1", device.port(), (int) TIMEOUT.toMillis(), false, false);
    }
}
