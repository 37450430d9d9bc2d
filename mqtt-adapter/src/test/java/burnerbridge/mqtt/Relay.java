package burnerbridge.mqtt;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** Passes TCP connections on to a port of this machine, until it cuts them. */
public final class Relay implements AutoCloseable {
    private final ServerSocket server;
    private final int target;
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private final ByteArrayOutputStream sent = new ByteArrayOutputStream();
    private volatile boolean passing = true;

    public Relay(int target) throws IOException {
        this.server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        this.target = target;
        start("relay accept", this::accept);
    }

    public int port() {
        return server.getLocalPort();
    }

    /** Closes every connection on both sides, and every new one at once, until {@link #pass}. */
    public void cut() {
        passing = false;
        sockets.forEach(Relay::closeQuietly);
    }

    public void pass() {
        passing = true;
    }

    /** How often a text occurs in what the clients sent. */
    public int occurrences(String text) {
        String all;
        synchronized (sent) {
            all = sent.toString(StandardCharsets.ISO_8859_1);
        }
        return all.split(java.util.regex.Pattern.quote(text), -1).length - 1;
    }

    @Override
    public void close() {
        closeQuietly(server);
        cut();
    }

    private void accept() {
        while (!server.isClosed()) {
            try {
                connect(server.accept());
            } catch (IOException e) {
                // The end, or a target that is away: the client sees its connection close.
            }
        }
    }

    private void connect(Socket client) throws IOException {
        if (!passing) {
            closeQuietly(client);
            return;
        }
        sockets.add(client);
        Socket broker;
        try {
            broker = new Socket(InetAddress.getLoopbackAddress(), target);
        } catch (IOException e) {
            closeQuietly(client);
            throw e;
        }
        sockets.add(broker);
        start("relay out", () -> pump(client, broker, true));
        start("relay in", () -> pump(broker, client, false));
    }

    private void pump(Socket from, Socket to, boolean record) {
        byte[] buffer = new byte[8_192];
        try {
            InputStream in = from.getInputStream();
            OutputStream out = to.getOutputStream();
            for (int length = in.read(buffer); length >= 0; length = in.read(buffer)) {
                if (record) {
                    synchronized (sent) {
                        sent.write(buffer, 0, length);
                    }
                }
                out.write(buffer, 0, length);
            }
        } catch (IOException e) {
            // One side is gone, and so the other goes.
        } finally {
            closeQuietly(from);
            closeQuietly(to);
        }
    }

    private static void start(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    private static void closeQuietly(Closeable closeable) {
        try {
            closeable.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
