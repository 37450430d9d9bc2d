package burnerbridge.mqtt.broker.socket;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.util.function.Supplier;
import javax.net.SocketFactory;
import javax.net.ssl.SSLSocketFactory;
import org.jspecify.annotations.Nullable;

/** Makes the one socket of a session and can close it, or keep it from being made, at any moment. */
public final class CuttableSockets extends SocketFactory {
    private final Supplier<Socket> kind;
    private @Nullable Socket socket;
    private boolean cut;

    private CuttableSockets(Supplier<Socket> kind) {
        this.kind = kind;
    }

    public static CuttableSockets plain() {
        return new CuttableSockets(PatientSocket::new);
    }

    /** @param host whose the peer's certificate must be */
    public static CuttableSockets encrypted(SSLSocketFactory keys, String host, int port) {
        return new CuttableSockets(() -> new PatientSocket(new Encryption(keys, host, port)));
    }

    @Override
    public synchronized Socket createSocket() throws IOException {
        if (cut) {
            throw new SocketException("given up");
        }
        socket = kind.get();
        // Small messages one after the other would wait for each other's acknowledgement.
        socket.setTcpNoDelay(true);
        return socket;
    }

    /** Closes it at once, and makes none any more. */
    public synchronized void cut() {
        cut = true;
        try {
            if (socket != null) {
                socket.close();
            }
        } catch (IOException e) {
            // Closing was all that was left to do with it.
        }
    }

    @Override
    public Socket createSocket(String host, int port) {
        throw onlyUnconnected();
    }

    @Override
    public Socket createSocket(String host, int port, InetAddress localHost, int localPort) {
        throw onlyUnconnected();
    }

    @Override
    public Socket createSocket(InetAddress host, int port) {
        throw onlyUnconnected();
    }

    @Override
    public Socket createSocket(InetAddress address, int port, InetAddress localAddress, int localPort) {
        throw onlyUnconnected();
    }

    private static UnsupportedOperationException onlyUnconnected() {
        return new UnsupportedOperationException("only unconnected sockets are made here");
    }
}
