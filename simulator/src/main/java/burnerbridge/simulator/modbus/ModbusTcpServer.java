package burnerbridge.simulator.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A Modbus TCP server for reading, as a field device has it: functions 1 to 4, several clients, several
 * units. It can be stopped and started again on its port, and its cable can be pulled, after which
 * clients still connect and are never answered.
 *
 * <p>All methods may be called by any thread.
 */
public final class ModbusTcpServer implements AutoCloseable {
    private final Units units;
    private InetSocketAddress address;
    private @Nullable Listener listener;
    private boolean closed;
    private volatile boolean cablePulled;

    /**
     * @param port 0 for any free one, which it then keeps over a stop and a start
     * @param images the register images by unit identifier
     */
    public ModbusTcpServer(
            InetAddress host, int port, Map<Integer, ? extends RegisterImage> images, UnknownUnit unknown) {
        this.address = new InetSocketAddress(host, port);
        this.units = new Units(images, unknown);
    }

    /**
     * Listens; without effect where it does already.
     *
     * @throws java.net.BindException where the port is taken
     */
    public synchronized void start() throws IOException {
        if (closed) {
            throw new IllegalStateException("Modbus server " + address + " is closed");
        }
        if (listener == null) {
            Listener opened = Listener.open(address, units, () -> cablePulled);
            address = opened.address();
            listener = opened;
        }
    }

    /** Closes the listening socket and every connection, as a device does that loses its power. */
    public synchronized void stop() {
        Listener stopped = listener;
        listener = null;
        if (stopped != null) {
            stopped.close();
        }
    }

    /** From now on requests are read and not answered. */
    public void pullCable() {
        cablePulled = true;
    }

    /** From now on requests are answered again; those that came in between stay unanswered. */
    public void plugCableIn() {
        cablePulled = false;
    }

    /** The port that it listens on; 0 before the first start with any free one. */
    public synchronized int port() {
        return address.getPort();
    }

    @Override
    public synchronized void close() {
        closed = true;
        stop();
    }
}
