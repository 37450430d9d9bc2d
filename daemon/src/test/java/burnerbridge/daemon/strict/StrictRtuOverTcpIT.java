package burnerbridge.daemon.strict;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.site.LineDefinition;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.net.InetAddress;

class StrictRtuOverTcpIT extends StrictRtuContract {

    @Override
    Transport transport() {
        return Transport.RTU_OVER_TCP;
    }

    @Override
    Door newDoor(int lane, int baud) {
        return new Door.RtuOverTcp(InetAddress.getLoopbackAddress(), 0, new WireRate(baud, BITS));
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device, Door door) {
        return new LineDefinition.RtuOverTcp(
                "127.0.0.1", device.port(), ((Door.RtuOverTcp) door).rate().baud());
    }

    @Override
    AbstractModbusMaster libraryMaster(FieldDevice device, Door door) {
        return new ModbusTCPMaster("127.0.0.1", device.port(), (int) TIMEOUT.toMillis(), false, true);
    }
}
