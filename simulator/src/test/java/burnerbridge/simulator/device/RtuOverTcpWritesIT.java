package burnerbridge.simulator.device;

import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.Transport;
import java.net.InetAddress;
import java.util.HexFormat;

class RtuOverTcpWritesIT extends WritesContract {

    @Override
    Door door() {
        return new Door.RtuOverTcp(InetAddress.getLoopbackAddress(), 0, new WireRate(115_200, 10));
    }

    @Override
    String frame(String pdu) {
        HexFormat hex = HexFormat.of().withUpperCase();
        return hex.formatHex(Transport.RTU_OVER_TCP.bytes(Frame.rtu(3, hex.parseHex(pdu))));
    }
}
