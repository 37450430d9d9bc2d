package burnerbridge.simulator.device;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A listening socket, the connections that came in by it, and a thread for each of them. */
final class Listener implements Port {
    private static final Logger LOG = LoggerFactory.getLogger(Listener.class);
    private static final int MOST_CLIENTS = 64;
    private static final long LONGEST_LEAVE_MILLIS = 500;

    private final InetSocketAddress address;
    /** Makes a connection of a socket and of a way to refuse all of them for a while. */
    private final BiFunction<Socket, Consumer<Duration>, Connection> maker;

    private final Set<Connection> connections = ConcurrentHashMap.newKeySet();
    private final Thread acceptor;
    private final CountDownLatch closing = new CountDownLatch(1);
    private final Semaphore left = new Semaphore(0);
    private volatile ServerSocket socket;
    private volatile Duration refusal = Duration.ZERO;

    private Listener(ServerSocket socket, BiFunction<Socket, Consumer<Duration>, Connection> maker) {
        this.socket = socket;
        this.address = (InetSocketAddress) socket.getLocalSocketAddress();
        this.maker = maker;
        this.acceptor = Threads.of("modbus server " + address.getPort(), this::accept);
    }

    static Listener open(InetSocketAddress address, BiFunction<Socket, Consumer<Duration>, Connection> maker)
            throws IOException {
        Listener listener = new Listener(bound(address), maker);
        listener.acceptor.start();
        return listener;
    }

    private static ServerSocket bound(InetSocketAddress address) throws IOException {
        ServerSocket socket = new ServerSocket();
        try {
            // The connections of the run before must not keep the port.
            socket.setReuseAddress(true);
            socket.bind(address);
            return socket;
        } catch (IOException e) {
            socket.close();
            throw e;
        }
    }

    @Override
    public int number() {
        return address.getPort();
    }

    private void accept() {
        while (!isClosed()) {
            try {
                serve(socket.accept());
            } catch (IOException e) {
                if (!isClosed() && !isOpenAgain()) {
                    LOG.warn("Modbus server {}: accepting failed: {}", address, e.toString());
                    return;
                }
            }
        }
    }

    private boolean isClosed() {
        return closing.getCount() == 0;
    }

    /** The socket has been closed; where that was to refuse for a while, opens another after it. */
    private boolean isOpenAgain() {
        Duration pause = refusal;
        refusal = Duration.ZERO;
        left.release();
        try {
            if (pause.isZero() || closing.await(pause.toNanos(), TimeUnit.NANOSECONDS)) {
                return isClosed();
            }
            socket = bound(address);
            if (isClosed()) {
                closeSocket();
            }
            return true;
        } catch (IOException e) {
            LOG.warn("Modbus server {}: cannot listen again: {}", address, e.toString());
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private void serve(Socket client) {
        Connection connection = maker.apply(client, this::refuse);
        connections.add(connection);
        // A connection accepted while closing has missed the sweep in close().
        if (isClosed() || connections.size() > MOST_CLIENTS) {
            end(connection);
            return;
        }
        Threads.of("modbus client " + connection.name(), () -> {
                    try {
                        connection.run();
                    } finally {
                        end(connection);
                    }
                })
                .start();
    }

    private void end(Connection connection) {
        connection.close();
        connections.remove(connection);
    }

    /** Ends every connection that there is; whoever sees that and connects anew is not among them. */
    void hangUp() {
        List.copyOf(connections).forEach(this::end);
    }

    /**
     * Ends every connection and takes no other for so long. Until its thread has left the socket, the system
     * still lets clients connect.
     */
    void refuse(Duration length) {
        refusal = length.isZero() ? Duration.ofNanos(1) : length;
        left.drainPermits();
        closeSocket();
        try {
            if (!left.tryAcquire(LONGEST_LEAVE_MILLIS, TimeUnit.MILLISECONDS)) {
                LOG.debug("Modbus server {}: is refusing already", address);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        hangUp();
    }

    private void closeSocket() {
        try {
            socket.close();
        } catch (IOException e) {
            LOG.debug("Modbus server {}: closing: {}", address, e.toString());
        }
    }

    /** Only when its thread has left the socket is the port free for the next listener. */
    @Override
    public void close() {
        closing.countDown();
        closeSocket();
        hangUp();
        Threads.awaitEnd(acceptor);
    }
}
