package burnerbridge.benchmark.lines;

import burnerbridge.model.BridgeClock;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.channels.ClosedSelectorException;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.util.ArrayList;
import java.util.List;

/**
 * Many Modbus TCP servers on ports of their own, served by one thread with little work a read, so that
 * what is measured is who asks. Each register holds its address.
 */
public final class Plant implements AutoCloseable {
    private static final int BACKLOG = 16;

    private final BridgeClock clock;
    private final Arrivals arrivals;
    private final Selector selector;
    private final List<ServerSocketChannel> listeners = new ArrayList<>();
    private final Thread thread = new Thread(this::serve, "plant");

    private Plant(Load load, BridgeClock clock) throws IOException {
        this.clock = clock;
        this.arrivals = new Arrivals(load);
        this.selector = Selector.open();
    }

    /** Listens on free ports, one for each line. */
    public static Plant open(Load load, BridgeClock clock) throws IOException {
        Plant plant = new Plant(load, clock);
        try {
            for (int line = 0; line < load.lines(); line++) {
                plant.listen(line);
            }
        } catch (IOException e) {
            plant.close();
            throw e;
        }
        plant.thread.setDaemon(true);
        plant.thread.start();
        return plant;
    }

    private void listen(int line) throws IOException {
        ServerSocketChannel listener = ServerSocketChannel.open();
        listeners.add(listener);
        listener.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), BACKLOG);
        listener.configureBlocking(false);
        listener.register(selector, SelectionKey.OP_ACCEPT, line);
    }

    /** In the order of the lines. */
    public List<Integer> ports() {
        return listeners.stream().map(l -> l.socket().getLocalPort()).toList();
    }

    Arrivals arrivals() {
        return arrivals;
    }

    private void serve() {
        try {
            while (selector.isOpen()) {
                selector.select(this::serve);
            }
        } catch (ClosedSelectorException e) {
            // Closed.
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void serve(SelectionKey key) {
        try {
            if (key.attachment() instanceof PlantConnection connection) {
                connection.answer();
            } else if (key.channel() instanceof ServerSocketChannel listener) {
                accept(listener, (Integer) key.attachment());
            }
        } catch (IOException e) {
            key.cancel();
            close(key.channel());
        }
    }

    private void accept(ServerSocketChannel listener, int line) throws IOException {
        SocketChannel channel = listener.accept();
        if (channel != null) {
            channel.configureBlocking(false);
            PlantConnection connection =
                    new PlantConnection(channel, address -> arrivals.note(line, address, clock.ticks()));
            channel.register(selector, SelectionKey.OP_READ, connection);
        }
    }

    private static void close(AutoCloseable closeable) {
        try {
            closeable.close();
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        selector.keys().forEach(key -> close(key.channel()));
        listeners.forEach(Plant::close);
        close(selector);
    }
}
