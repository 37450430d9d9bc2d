package burnerbridge.control;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Offers the control socket to the verbs of the same user. Each client has a thread of its own from a
 * bounded number, so that a slow one delays only itself; none of them is needed for the bridge's work.
 */
public final class ControlServer implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(ControlServer.class);
    private static final long PAUSE_AFTER_FAILURE = 1_000_000_000L;
    private static final Duration LONGEST_END = Duration.ofSeconds(1);
    private static final Duration BRIEF = Duration.ofMillis(100);

    private final Path socket;
    private final Greeting greeting;
    private final Map<String, Supplier<RequestHandler>> handlers;
    private final Limits limits;
    private final Map<Integer, LineChannel> clients = new HashMap<>();
    private @Nullable ServerSocketChannel listening;
    private boolean closed;

    /**
     * @param socket in the state folder that this process has taken, so that whatever is there is of a
     *     process that has ended
     * @param handlers of each request by its name; made anew for each connection
     */
    public ControlServer(Path socket, Greeting greeting, Map<String, Supplier<RequestHandler>> handlers) {
        this(socket, greeting, handlers, Limits.USUAL);
    }

    ControlServer(Path socket, Greeting greeting, Map<String, Supplier<RequestHandler>> handlers, Limits limits) {
        this.limits = limits;
        this.socket = socket;
        this.greeting = greeting;
        this.handlers = Map.copyOf(handlers);
    }

    /** @throws IOException where the socket cannot be made; with words for people */
    public synchronized void start() throws IOException {
        Protocol.checkLength(socket);
        makeFolder(socket.toAbsolutePath().getParent());
        Files.deleteIfExists(socket);
        ServerSocketChannel server = ServerSocketChannel.open(StandardProtocolFamily.UNIX);
        try {
            // Nobody else can reach into the folder, so that the time between these two lines harms nothing.
            server.bind(UnixDomainSocketAddress.of(socket), limits.clients());
            Files.setPosixFilePermissions(socket, PosixFilePermissions.fromString("rw-------"));
        } catch (IOException e) {
            server.close();
            throw e;
        }
        listening = server;
        thread("control", () -> acceptAll(server)).start();
    }

    private static void makeFolder(@Nullable Path folder) throws IOException {
        if (folder != null) {
            var forItsUserOnly = PosixFilePermissions.fromString("rwx------");
            if (!Files.isDirectory(folder)) {
                Files.createDirectory(folder, PosixFilePermissions.asFileAttribute(forItsUserOnly));
            }
            Files.setPosixFilePermissions(folder, forItsUserOnly);
        }
    }

    private static Thread thread(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((ended, error) -> LOG.error("thread {} ended by an error", name, error));
        return thread;
    }

    private void acceptAll(ServerSocketChannel server) {
        while (server.isOpen()) {
            try {
                admit(server.accept());
            } catch (ClosedChannelException e) {
                return;
            } catch (IOException e) {
                LOG.debug("control socket {}: {}", socket, e.toString());
                LockSupport.parkNanos(PAUSE_AFTER_FAILURE);
            }
        }
    }

    private void admit(SocketChannel channel) throws IOException {
        LineChannel lines = new LineChannel(channel);
        int place = place(lines);
        if (place < 0) {
            try (lines) {
                lines.write(
                        ClientSession.error("busy", limits.clients() + " programs ask it at the same time already"),
                        BRIEF);
                lines.flush(BRIEF);
            }
            return;
        }
        thread("control client " + place, () -> serve(place, lines)).start();
    }

    private void serve(int place, LineChannel lines) {
        try {
            new ClientSession(lines, greeting, handlers, limits).serve();
        } finally {
            synchronized (this) {
                clients.remove(place);
                notifyAll();
            }
        }
    }

    /** A place from 1 on; less than 0 where all are taken. */
    private synchronized int place(LineChannel lines) throws IOException {
        if (closed) {
            lines.close();
        }
        for (int place = 1; place <= limits.clients(); place++) {
            if (clients.putIfAbsent(place, lines) == null) {
                return place;
            }
        }
        return -1;
    }

    /** Hangs up on everybody and takes the socket away. Idempotent; returns within about 1 s. */
    @Override
    public synchronized void close() {
        if (closed || listening == null) {
            closed = true;
            return;
        }
        closed = true;
        closeQuietly(listening);
        clients.values().forEach(ControlServer::closeQuietly);
        try {
            Files.deleteIfExists(socket);
            for (int i = 0; !clients.isEmpty() && i < 10; i++) {
                wait(LONGEST_END.toMillis() / 10);
            }
        } catch (IOException e) {
            LOG.debug("control socket {}: {}", socket, e.toString());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void closeQuietly(AutoCloseable closeable) {
        try {
            closeable.close();
        } catch (Exception e) {
            LOG.debug("control socket: {}", e.toString());
        }
    }
}
