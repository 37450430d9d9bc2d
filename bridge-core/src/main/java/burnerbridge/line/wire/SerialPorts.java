package burnerbridge.line.wire;

import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.Serial;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Path;

/** Opens serial ports, for this process alone, and says in words why one cannot be opened. */
final class SerialPorts {
    private SerialPorts() {}

    static SerialPort open(Serial settings, int sliceMillis) throws IOException {
        try {
            SerialPort port = SerialPort.getCommPort(settings.port());
            configure(port, settings, sliceMillis);
            if (!port.openPort()) {
                throw new IOException(words(port.getLastErrorCode(), Path.of(settings.port())));
            }
            return port;
        } catch (SerialPortInvalidPortException e) {
            throw new IOException("there is no such port", e);
        } catch (LinkageError e) {
            throw new IOException("the native serial library cannot be loaded: " + e.getMessage(), e);
        }
    }

    private static void configure(SerialPort port, Serial settings, int sliceMillis) {
        port.setComPortParameters(settings.baud(), 8, stopBits(settings), parity(settings));
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, sliceMillis, 0);
        if (settings.rs485() == Rs485.AUTO) {
            port.disableRs485ModeControl();
        } else {
            port.setRs485ModeParameters(true, settings.rs485() == Rs485.RTS_HIGH, 0, 0);
        }
    }

    private static int stopBits(Serial settings) {
        return settings.stopBits() == 2 ? SerialPort.TWO_STOP_BITS : SerialPort.ONE_STOP_BIT;
    }

    private static int parity(Serial settings) {
        return switch (settings.parity()) {
            case NONE -> SerialPort.NO_PARITY;
            case ODD -> SerialPort.ODD_PARITY;
            case EVEN -> SerialPort.EVEN_PARITY;
        };
    }

    /** What the error numbers of Linux mean for a port. */
    private static String words(int error, Path port) {
        return switch (error) {
            case 2, 6, 19 -> "there is no such port";
            case 5 -> "the port is gone";
            case 11, 16 ->
                "another program has it open"
                        + FileLocks.holder(port)
                                .map(pid -> " (process " + pid + ")")
                                .orElse("");
            case 13 -> "this user may not open it (on most systems the group dialout may)";
            case 22 -> "it cannot do this baud rate, parity or number of stop bits";
            case 25 -> "it is no serial port";
            default -> "cannot be opened (error " + error + ")";
        };
    }
}
