package burnerbridge.line;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** A scripted peer that listens on a loopback port. */
final class ScriptedTcpPeer extends ScriptedPeer {
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private final ServerSocket server;
    private volatile byte[] greeting = {};

    ScriptedTcpPeer(Shape shape) {
        super(shape);
        try {
            server = new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        start("peer", this::accept);
    }

    /** Sends so many bytes to whoever connects, unasked. */
    void greets(byte[] bytes) {
        greeting = bytes;
    }

    int port() {
        return server.getLocalPort();
    }

    private void accept() {
        try {
            while (true) {
                Socket socket = server.accept();
                socket.setTcpNoDelay(true);
                connections.incrementAndGet();
                sockets.add(socket);
                start("peer connection", () -> serve(socket));
            }
        } catch (IOException e) {
            // Closed.
        }
    }

    private void serve(Socket socket) {
        try {
            socket.getOutputStream().write(greeting);
            serve(socket.getInputStream(), socket.getOutputStream(), socket);
        } catch (IOException e) {
            // The connection ended.
        }
    }

    @Override
    public void close() {
        try {
            server.close();
            for (Socket socket : sockets) {
                socket.close();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
