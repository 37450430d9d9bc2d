package burnerbridge.simulator.device;

import java.net.InetAddress;
import java.util.HexFormat;

class TcpWritesIT extends WritesContract {

    @Override
    Door door() {
        return new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0);
    }

    @Override
    String frame(String pdu) {
        return "00010000" + HexFormat.of().withUpperCase().toHexDigits((short) (pdu.length() / 2 + 1)) + "03" + pdu;
    }
}
