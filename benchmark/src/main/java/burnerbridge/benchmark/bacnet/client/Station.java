package burnerbridge.benchmark.bacnet.client;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetSocketAddress;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;

/** A station on loopback that talks to one device. Used by one thread. */
public final class Station implements AutoCloseable {
    private static final int BUFFER = 8 << 20;

    private final DatagramSocket socket;
    private final DatagramPacket incoming = new DatagramPacket(new byte[Frames.ROOM], Frames.ROOM);
    private final ByteBuffer heard = ByteBuffer.wrap(incoming.getData());
    private final InetSocketAddress device;
    private final ByteBuffer frame = ByteBuffer.allocate(Frames.ROOM);

    /** @param host an address of loopback */
    public Station(String host, int devicePort, int patienceMillis) {
        try {
            socket = new DatagramSocket(new InetSocketAddress(host, 0));
            socket.setReceiveBufferSize(BUFFER);
            socket.setSoTimeout(patienceMillis);
            device = new InetSocketAddress("127.0.0.1", devicePort);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Where the next datagram is made. */
    public ByteBuffer frame() {
        return frame;
    }

    /** Sends what was made. */
    public void send() {
        try {
            socket.send(new DatagramPacket(frame.array(), frame.limit(), device));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Whether a datagram came in time; {@link #heard} has it then. */
    public boolean hear() {
        try {
            incoming.setLength(Frames.ROOM);
            socket.receive(incoming);
            heard.clear().limit(incoming.getLength());
            return true;
        } catch (SocketTimeoutException e) {
            return false;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public ByteBuffer heard() {
        return heard;
    }

    @Override
    public void close() {
        socket.close();
    }
}
