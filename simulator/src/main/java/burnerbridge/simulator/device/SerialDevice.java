package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A device on a serial port. One thread reads the port, that of the line writes to it. */
final class SerialDevice implements Port, Outlet {
    private static final Logger LOG = LoggerFactory.getLogger(SerialDevice.class);
    private static final int SLICE_MILLIS = 100;

    private final SerialPort port;
    private final SerialLine line;
    private final Thread reader;
    private volatile boolean closed;

    private SerialDevice(SerialPort port, Path path, Behaviour behaviour, WireRate rate, Ticker ticker) {
        this.port = port;
        this.line = new SerialLine("on " + path, behaviour, rate, ticker, this);
        this.reader = Threads.of("serial port " + path, this::listen);
    }

    /** @throws IOException where there is no such port, or it cannot be opened */
    static SerialDevice open(Path path, Behaviour behaviour, WireRate rate, Ticker ticker) throws IOException {
        // Asked here, since the library would take another port of the same last name.
        if (!Files.exists(path)) {
            throw new IOException(path + ": there is no such port");
        }
        SerialDevice device = new SerialDevice(opened(path, rate), path, behaviour, rate, ticker);
        device.reader.start();
        device.line.start();
        return device;
    }

    private static SerialPort opened(Path path, WireRate rate) throws IOException {
        try {
            SerialPort port = SerialPort.getCommPort(path.toString());
            int stopBits = rate.bitsPerCharacter() > 10 ? SerialPort.TWO_STOP_BITS : SerialPort.ONE_STOP_BIT;
            port.setComPortParameters(rate.baud(), 8, stopBits, SerialPort.NO_PARITY);
            port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
            port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, SLICE_MILLIS, 0);
            port.disableRs485ModeControl();
            if (!port.openPort()) {
                throw new IOException(path + ": cannot be opened (error " + port.getLastErrorCode() + ")");
            }
            return port;
        } catch (SerialPortInvalidPortException e) {
            throw new IOException(path + ": is no serial port", e);
        }
    }

    private void listen() {
        byte[] buffer = new byte[512];
        for (int read = 0; read >= 0 && !closed; read = port.readBytes(buffer, buffer.length)) {
            if (read > 0) {
                line.hear(Arrays.copyOf(buffer, read));
            }
        }
        if (!closed) {
            LOG.warn("{}: the port is gone", reader.getName());
        }
    }

    @Override
    public int number() {
        return 0;
    }

    @Override
    public void write(byte[] bytes) throws IOException {
        if (port.writeBytes(bytes, bytes.length) < bytes.length) {
            throw new IOException("the port takes no bytes");
        }
    }

    @Override
    public void hangUp() {
        // A serial port has no connection.
    }

    @Override
    public void refuse(Duration length) {
        // Nor one to refuse.
    }

    /** The port is closed only when nobody reads it any more. */
    @Override
    public void close() {
        closed = true;
        line.close();
        Threads.awaitEnd(reader);
        port.closePort();
    }
}
