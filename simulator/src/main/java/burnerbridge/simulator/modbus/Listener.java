package burnerbridge.simulator.modbus;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A listening socket, the connections that came in by it, and a thread for each of them. */
final class Listener implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Listener.class);
    private static final int MOST_CLIENTS = 64;
    private static final long LONGEST_CLOSE_MILLIS = 1000;

    private final ServerSocket socket;
    private final Units units;
    private final BooleanSupplier cablePulled;
    private final Set<ClientConnection> connections = ConcurrentHashMap.newKeySet();
    private final Thread acceptor;
    private volatile boolean closed;

    private Listener(ServerSocket socket, Units units, BooleanSupplier cablePulled) {
        this.socket = socket;
        this.units = units;
        this.cablePulled = cablePulled;
        this.acceptor = thread("modbus server " + socket.getLocalPort(), this::accept);
    }

    static Listener open(InetSocketAddress address, Units units, BooleanSupplier cablePulled) throws IOException {
        ServerSocket socket = new ServerSocket();
        try {
            // The connections of the run before must not keep the port.
            socket.setReuseAddress(true);
            socket.bind(address);
        } catch (IOException e) {
            socket.close();
            throw e;
        }
        Listener listener = new Listener(socket, units, cablePulled);
        listener.acceptor.start();
        return listener;
    }

    InetSocketAddress address() {
        return (InetSocketAddress) socket.getLocalSocketAddress();
    }

    private void accept() {
        while (!closed) {
            try {
                serve(socket.accept());
            } catch (IOException e) {
                if (!closed) {
                    LOG.warn("Modbus server {}: accepting failed: {}", address(), e.toString());
                    return;
                }
            }
        }
    }

    private void serve(Socket client) {
        ClientConnection connection = new ClientConnection(client, units, cablePulled);
        connections.add(connection);
        // A connection accepted while closing has missed the sweep in close().
        if (closed || connections.size() > MOST_CLIENTS) {
            end(connection);
            return;
        }
        thread("modbus client " + connection.name(), () -> {
                    try {
                        connection.run();
                    } finally {
                        end(connection);
                    }
                })
                .start();
    }

    private void end(ClientConnection connection) {
        connection.close();
        connections.remove(connection);
    }

    private static Thread thread(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{} ended", t.getName(), e));
        return thread;
    }

    @Override
    public void close() {
        closed = true;
        try {
            socket.close();
        } catch (IOException e) {
            LOG.debug("Modbus server {}: closing: {}", address(), e.toString());
        }
        connections.forEach(this::end);
        awaitAcceptor();
    }

    /** Only when its thread has left the socket is the port free for the next listener. */
    private void awaitAcceptor() {
        try {
            acceptor.join(LONGEST_CLOSE_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
