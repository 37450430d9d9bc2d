package burnerbridge.daemon.writes;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.site.LineDefinition;
import java.net.InetAddress;

class TcpWritesIT extends WritesContract {

    @Override
    Door door() {
        return new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0);
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device) {
        return new LineDefinition.Tcp("127.0.0.1", device.port());
    }
}
