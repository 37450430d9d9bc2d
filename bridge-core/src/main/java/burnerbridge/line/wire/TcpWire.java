package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import java.io.EOFException;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Duration;

/** One socket. What has come is taken from the system in one piece, since asking it twice costs more than keeping it. */
public final class TcpWire implements Wire {
    /** More than a frame of any framing. */
    private static final int MOST_AHEAD = 512;

    private final Socket socket = new Socket();
    private final HostName host;
    private final int port;
    private final Duration connectTimeout;
    private final BridgeClock clock;
    private final byte[] ahead = new byte[MOST_AHEAD];
    private int next;
    private int end;

    public TcpWire(HostName host, int port, Duration connectTimeout, BridgeClock clock) {
        this.host = host;
        this.port = port;
        this.connectTimeout = connectTimeout;
        this.clock = clock;
    }

    @Override
    public void open() throws IOException {
        Deadline deadline = Deadline.after(connectTimeout, clock);
        InetAddress address = host.address(deadline, socket::isClosed);
        try {
            socket.setTcpNoDelay(true);
            socket.setKeepAlive(true);
            socket.connect(new InetSocketAddress(address, port), deadline.leftMillis(clock));
        } catch (SocketTimeoutException e) {
            throw new IOException("no answer to the connection request", e);
        }
    }

    @Override
    public int waiting() throws IOException {
        return end - next + socket.getInputStream().available();
    }

    @Override
    public void send(byte[] frame) throws IOException {
        socket.getOutputStream().write(frame);
    }

    @Override
    public int read(byte[] buffer, int from, int most, Deadline deadline) throws IOException {
        if (next == end) {
            next = 0;
            end = receive(deadline);
        }
        int taken = Math.min(most, end - next);
        System.arraycopy(ahead, next, buffer, from, taken);
        next += taken;
        return taken;
    }

    private int receive(Deadline deadline) throws IOException {
        end = 0;
        try {
            socket.setSoTimeout(deadline.sliceMillis(clock));
            int read = socket.getInputStream().read(ahead);
            if (read < 0) {
                throw new EOFException("the peer closed the connection");
            }
            return read;
        } catch (SocketTimeoutException slice) {
            return 0;
        }
    }

    /** Only a new connection is sure to have nothing under way in it. */
    @Override
    public boolean drain() {
        return false;
    }

    @Override
    public void close() {
        try {
            socket.close();
        } catch (IOException ignored) {
            // It is gone either way.
        }
    }
}
