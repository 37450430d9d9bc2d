package burnerbridge.web.http;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardProtocolFamily;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A port that answers one request a connection, on one thread that never waits for a client.
 *
 * <p>Bounds: 64 connections, of which the one that has been open longest without having asked makes room for another;
 * 5 s and 8 KiB for the head of a request, of which 1 KiB for its first line; nothing behind it is read but thrown away;
 * 10 s to take the answer; 16 MiB of answers that wait to be taken.
 */
public final class Port implements AutoCloseable, MetricSource {
    private static final Logger LOG = LoggerFactory.getLogger(Port.class);
    private static final int BACKLOG = 128;
    /** Few at a time, so that those who came are heard before they can be pushed out. */
    private static final int ACCEPTED_A_TURN = 8;

    private static final long PAUSE = TimeUnit.SECONDS.toNanos(1);
    private static final long CLOSE_MILLIS = 2_000;

    private static final Metric ACCEPTED =
            Metric.counter("burner_bridge_web_connections", "Connections to the port for health and metrics.");
    private static final Metric CUT = Metric.counter(
            "burner_bridge_web_connections_cut",
            "Connections to the port for health and metrics that were ended, because they took too long or for room.",
            "because");
    private static final Metric OPEN = Metric.gauge(
            "burner_bridge_web_open_connections", "Connections to the port for health and metrics right now.");

    private final InetSocketAddress address;
    private final Answering answering;
    private final BridgeClock clock;
    private final Visits visits = new Visits();
    private final ByteBuffer scratch = ByteBuffer.allocate(HeadReader.MOST_OCTETS);
    private final AtomicLong accepted = new AtomicLong();
    private final AtomicLong tooSlow = new AtomicLong();
    private final AtomicLong forRoom = new AtomicLong();
    private volatile int openNow;
    private volatile boolean closing;
    private volatile int number;
    private volatile @Nullable Thread thread;
    private volatile @Nullable Selector selector;
    private boolean cannotAccept;
    private long acceptAgainAt;
    private boolean toldAFault;

    /** Says what is answered; on the web thread, and may not wait. */
    public interface Answering {
        Answer answer(Request request, InetAddress peer, Stamp now);

        /** Told of each answer, of whatever was no request too. */
        void answered(int status);
    }

    /** @param address port 0: one that is free */
    public Port(InetSocketAddress address, Answering answering, BridgeClock clock) {
        this.address = address;
        this.answering = answering;
        this.clock = clock;
        this.number = address.getPort();
    }

    /**
     * Opens the port and returns.
     *
     * @param ended told on the web thread where a fault ends it
     */
    public void open(Consumer<Throwable> ended) throws IOException {
        Selector with = Selector.open();
        ServerSocketChannel door;
        try {
            door = door(with);
        } catch (IOException | RuntimeException e) {
            with.close();
            throw e;
        }
        selector = with;
        Thread own = new Thread(() -> run(with, door), "web port");
        own.setDaemon(true);
        own.setUncaughtExceptionHandler((gone, fault) -> ended.accept(fault));
        thread = own;
        own.start();
    }

    private ServerSocketChannel door(Selector with) throws IOException {
        // Of its own family: a socket of both would open 0.0.0.0 to IPv6 as well.
        ServerSocketChannel door = ServerSocketChannel.open(
                address.getAddress() instanceof Inet4Address
                        ? StandardProtocolFamily.INET
                        : StandardProtocolFamily.INET6);
        try {
            door.setOption(StandardSocketOptions.SO_REUSEADDR, true);
            door.bind(address, BACKLOG);
            door.configureBlocking(false);
            door.register(with, SelectionKey.OP_ACCEPT);
            number = door.socket().getLocalPort();
            return door;
        } catch (IOException | RuntimeException e) {
            door.close();
            throw e;
        }
    }

    /** The port that is open, or was asked for. */
    public int number() {
        return number;
    }

    private void run(Selector with, ServerSocketChannel door) {
        try (with;
                door) {
            while (!closing) {
                turn(with, door);
            }
        } catch (IOException e) {
            throw new IllegalStateException("the port cannot be waited on", e);
        } finally {
            visits.all().forEach(Visit::end);
            openNow = 0;
        }
    }

    private void turn(Selector with, ServerSocketChannel door) throws IOException {
        long now = clock.ticks();
        if (cannotAccept && now - acceptAgainAt >= 0) {
            door.keyFor(with).interestOps(SelectionKey.OP_ACCEPT);
            acceptAgainAt = now + PAUSE;
        }
        // 0 waits until something comes.
        long millis = visits.count() == 0 && !cannotAccept
                ? 0
                : Math.max(1, TimeUnit.NANOSECONDS.toMillis(visits.nextDue(now)));
        with.select(key -> ready(with, key), millis);
        Stamp after = clock.now();
        for (Visit visit : visits.all()) {
            expire(visit, after);
        }
        Optional<Visit> heavy = visits.leastWorthWhenHeavy();
        while (heavy.isPresent()) {
            cut(heavy.get());
            heavy = visits.leastWorthWhenHeavy();
        }
        visits.all().stream().filter(visit -> visit.phase() == Visit.Phase.GONE).forEach(visits::forget);
        openNow = visits.count();
    }

    private void expire(Visit visit, Stamp now) {
        Visit.Phase before = visit.phase();
        if (visit.expire(now) && before != Visit.Phase.LEAVING) {
            tooSlow.incrementAndGet();
        }
        if (before == Visit.Phase.ASKING) {
            count(visit);
        }
    }

    private void ready(Selector with, SelectionKey key) {
        if (key.channel() instanceof ServerSocketChannel door) {
            accept(with, door, key);
        } else if (key.attachment() instanceof Visit visit) {
            step(key, visit);
        }
    }

    /** A fault costs this connection alone. */
    private void step(SelectionKey key, Visit visit) {
        boolean hadAnswered = visit.status().isPresent();
        try {
            visit.step(scratch, clock.now());
        } catch (RuntimeException e) {
            visit.end();
            tellFault(e);
        }
        if (!hadAnswered) {
            count(visit);
        }
        if (visit.phase() == Visit.Phase.GONE) {
            visits.forget(visit);
        } else {
            key.interestOps(visit.phase() == Visit.Phase.ANSWERING ? SelectionKey.OP_WRITE : SelectionKey.OP_READ);
        }
    }

    private void count(Visit visit) {
        visit.status().ifPresent(answering::answered);
    }

    private void accept(Selector with, ServerSocketChannel door, SelectionKey key) {
        for (int turn = 0; turn < ACCEPTED_A_TURN; turn++) {
            try {
                SocketChannel channel = door.accept();
                if (channel == null) {
                    return;
                }
                cannotAccept = false;
                accepted.incrementAndGet();
                visits.leastWorthWhenFull().ifPresent(this::cut);
                greet(with, channel);
            } catch (IOException e) {
                rest(key, e);
                return;
            }
        }
    }

    private void greet(Selector with, SocketChannel channel) throws IOException {
        try {
            channel.configureBlocking(false);
            InetAddress peer = ((InetSocketAddress) channel.getRemoteAddress()).getAddress();
            Visit visit = new Visit(
                    new SocketWire(channel), request -> answering.answer(request, peer, clock.now()), clock.ticks());
            channel.register(with, SelectionKey.OP_READ, visit);
            visits.add(visit);
        } catch (IOException e) {
            LOG.debug("web: a connection was gone before it was heard", e);
            channel.close();
        }
    }

    /** Where the system gives no more connections, it would be asked again and again at once. */
    private void rest(SelectionKey door, IOException e) {
        if (!cannotAccept) {
            LOG.warn("web: no connection can be accepted ({}); trying again every second", e.getMessage());
        }
        cannotAccept = true;
        acceptAgainAt = clock.ticks() + PAUSE;
        door.interestOps(0);
    }

    private void cut(Visit visit) {
        visit.end();
        visits.forget(visit);
        forRoom.incrementAndGet();
    }

    private void tellFault(RuntimeException e) {
        if (toldAFault) {
            LOG.debug("web: a fault ended a connection", e);
        } else {
            LOG.error("web: a fault ended a connection; more of them are told at debug", e);
        }
        toldAFault = true;
    }

    @Override
    public void measure(MetricSink sink) {
        sink.sample(ACCEPTED, (double) accepted.get());
        sink.sample(CUT, (double) tooSlow.get(), "time");
        sink.sample(CUT, (double) forRoom.get(), "room");
        sink.sample(OPEN, openNow);
    }

    /** Returns within two seconds, whatever the clients do. A second call does nothing. */
    @Override
    public void close() {
        closing = true;
        Thread own = thread;
        Selector with = selector;
        if (own == null || with == null) {
            return;
        }
        with.wakeup();
        try {
            own.join(CLOSE_MILLIS);
            if (own.isAlive()) {
                LOG.warn("web: the port did not end within {} ms", CLOSE_MILLIS);
                own.interrupt();
            }
        } catch (InterruptedException e) {
            own.interrupt();
            Thread.currentThread().interrupt();
        }
    }
}
