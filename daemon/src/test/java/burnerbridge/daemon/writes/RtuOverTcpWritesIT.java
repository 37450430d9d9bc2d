package burnerbridge.daemon.writes;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.site.LineDefinition;
import java.net.InetAddress;

class RtuOverTcpWritesIT extends WritesContract {

    @Override
    Door door() {
        return new Door.RtuOverTcp(InetAddress.getLoopbackAddress(), 0, new WireRate(BAUD, 11));
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device) {
        return new LineDefinition.RtuOverTcp("127.0.0.1", device.port(), BAUD);
    }
}
