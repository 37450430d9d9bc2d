package burnerbridge.simulator.device;

import burnerbridge.simulator.clock.Ticker;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.time.Duration;
import java.util.Arrays;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Joins connections and a serial line: every byte of any connection goes to the line, every byte of the
 * line to all that are connected at that moment, whoever asked.
 */
final class DeviceServer implements Port, Outlet {
    private static final Logger LOG = LoggerFactory.getLogger(DeviceServer.class);

    private final Set<Tap> taps = ConcurrentHashMap.newKeySet();
    private final SerialLine line;
    private final Listener listener;

    private DeviceServer(InetSocketAddress address, Behaviour behaviour, WireRate rate, Ticker ticker)
            throws IOException {
        line = new SerialLine("behind " + address, behaviour, rate, ticker, this);
        listener = Listener.open(address, (socket, refusal) -> new Tap(socket));
    }

    static DeviceServer open(InetSocketAddress address, Behaviour behaviour, WireRate rate, Ticker ticker)
            throws IOException {
        DeviceServer server = new DeviceServer(address, behaviour, rate, ticker);
        server.line.start();
        return server;
    }

    private final class Tap implements Connection {
        private final Socket socket;

        Tap(Socket socket) {
            this.socket = socket;
            taps.add(this);
        }

        @Override
        public String name() {
            return String.valueOf(socket.getRemoteSocketAddress());
        }

        @Override
        public void run() {
            byte[] buffer = new byte[512];
            try {
                socket.setTcpNoDelay(true);
                for (int read = 0; read >= 0; read = socket.getInputStream().read(buffer)) {
                    line.hear(Arrays.copyOf(buffer, read));
                }
            } catch (IOException e) {
                LOG.debug("device server: {}: connection ended: {}", name(), e.toString());
            }
        }

        void write(byte[] bytes) {
            try {
                socket.getOutputStream().write(bytes);
            } catch (IOException e) {
                LOG.debug("device server: {}: {}", name(), e.toString());
            }
        }

        @Override
        public void close() {
            taps.remove(this);
            try {
                socket.close();
            } catch (IOException e) {
                LOG.debug("device server: {}: closing: {}", name(), e.toString());
            }
        }
    }

    @Override
    public int number() {
        return listener.number();
    }

    @Override
    public void write(byte[] bytes) {
        taps.forEach(tap -> tap.write(bytes));
    }

    @Override
    public void hangUp() {
        listener.hangUp();
    }

    @Override
    public void refuse(Duration length) {
        listener.refuse(length);
    }

    @Override
    public void close() {
        listener.close();
        line.close();
    }
}
