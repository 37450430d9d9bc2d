package burnerbridge.simulator.device;

import burnerbridge.simulator.frame.Transport;
import java.net.InetAddress;
import java.nio.file.Path;

/** Where a device is reached. */
public sealed interface Door {

    /**
     * Modbus TCP.
     *
     * @param port 0 for any free one, which is then kept over a stop and a start
     */
    record ModbusTcp(InetAddress host, int port) implements Door {}

    /**
     * A device server that passes every byte on, and the serial line behind it.
     *
     * @param port as above
     */
    record RtuOverTcp(InetAddress host, int port, WireRate rate) implements Door {}

    /** A serial port with eight data bits, no parity and one or two stop bits, as the rate has it. */
    record RtuSerial(Path port, WireRate rate) implements Door {}

    default Transport transport() {
        if (this instanceof ModbusTcp) {
            return Transport.MODBUS_TCP;
        }
        return this instanceof RtuOverTcp ? Transport.RTU_OVER_TCP : Transport.RTU_SERIAL;
    }
}
