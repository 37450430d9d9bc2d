package burnerbridge.line;

import burnerbridge.model.BridgeClock;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Duration;

/** One open socket. Its reads obey an absolute deadline in slices, so that another thread can end them. */
final class TcpConnection implements AutoCloseable {
    private final Socket socket;
    private final InputStream in;
    private final BridgeClock clock;

    private TcpConnection(Socket socket, BridgeClock clock) throws IOException {
        this.socket = socket;
        this.in = socket.getInputStream();
        this.clock = clock;
    }

    /** Connects {@code socket}, which the caller may close meanwhile to give up. */
    static TcpConnection open(Socket socket, InetSocketAddress address, Duration timeout, BridgeClock clock)
            throws IOException {
        socket.setTcpNoDelay(true);
        socket.setKeepAlive(true);
        socket.connect(address, Math.toIntExact(timeout.toMillis()));
        return new TcpConnection(socket, clock);
    }

    /** Whether bytes wait that nobody asked for. */
    boolean hasStrayBytes() throws IOException {
        return in.available() > 0;
    }

    void send(byte[] frame) throws IOException {
        socket.getOutputStream().write(frame);
    }

    /**
     * Fills {@code buffer} from {@code from} on, as far as bytes come before the deadline.
     *
     * @return how many bytes of the buffer are filled
     * @throws EOFException where the peer ended the connection first
     */
    int fill(byte[] buffer, int from, Deadline deadline) throws IOException {
        int filled = from;
        while (filled < buffer.length && !deadline.isOver(clock)) {
            filled += readSome(buffer, filled, deadline);
        }
        return filled;
    }

    private int readSome(byte[] buffer, int from, Deadline deadline) throws IOException {
        try {
            socket.setSoTimeout(deadline.sliceMillis(clock));
            int read = in.read(buffer, from, buffer.length - from);
            if (read < 0) {
                throw new EOFException("the peer closed the connection");
            }
            return read;
        } catch (SocketTimeoutException slice) {
            return 0;
        }
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
