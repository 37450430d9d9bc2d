package burnerbridge.simulator.device;

import java.io.DataInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.HexFormat;

/** A client that sends and receives bytes as hex and knows nothing of what they mean. */
public final class HandMadeClient implements AutoCloseable {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();
    private static final int PATIENCE_MILLIS = 5000;
    /** Long enough for a reply on loopback that was to come. */
    private static final int SILENCE_MILLIS = 300;

    private final Socket socket;
    private final DataInputStream in;

    public HandMadeClient(int port) throws IOException {
        socket = new Socket(InetAddress.getLoopbackAddress(), port);
        socket.setSoTimeout(PATIENCE_MILLIS);
        in = new DataInputStream(socket.getInputStream());
    }

    public void send(String hex) throws IOException {
        socket.getOutputStream().write(HEX.parseHex(hex));
    }

    /** So many bytes, waited for. */
    public String receive(int count) throws IOException {
        byte[] bytes = new byte[count];
        in.readFully(bytes);
        return HEX.formatHex(bytes);
    }

    public String ask(String request, int count) throws IOException {
        send(request);
        return receive(count);
    }

    public boolean hearsNothing() throws IOException {
        socket.setSoTimeout(SILENCE_MILLIS);
        try {
            in.readByte();
            return false;
        } catch (SocketTimeoutException e) {
            return true;
        } finally {
            socket.setSoTimeout(PATIENCE_MILLIS);
        }
    }

    /** Whether the other side has ended the connection. */
    public boolean isCutOff() {
        try {
            return in.read() < 0;
        } catch (SocketTimeoutException e) {
            return false;
        } catch (IOException e) {
            return true;
        }
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
