package burnerbridge.benchmark.bacnet.hostile;

import burnerbridge.benchmark.bacnet.client.Station;
import burnerbridge.benchmark.measure.MachineClock;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.function.Consumer;

/** A station that sends at a steady rate, and listens to nothing, on a thread of its own. */
final class Attack implements AutoCloseable {
    private static final Duration SLICE = Duration.ofMillis(1);
    private static final long STOP_MILLIS = 1000;

    private final Station station;
    private final double perNano;
    private final Consumer<ByteBuffer> maker;
    private final MachineClock clock;
    private final Thread thread;
    private volatile long sent;
    private volatile boolean ended;

    /** @param maker puts the next datagram into a buffer */
    Attack(String name, Station station, int perSecond, Consumer<ByteBuffer> maker, MachineClock clock) {
        this.station = station;
        this.perNano = perSecond / 1e9;
        this.maker = maker;
        this.clock = clock;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
    }

    Attack start() {
        thread.start();
        return this;
    }

    private void run() {
        long begin = clock.ticks();
        while (!ended) {
            long due = (long) ((clock.ticks() - begin) * perNano);
            for (long count = sent; count < due && !ended; count++) {
                maker.accept(station.frame());
                station.send();
                sent = count + 1;
            }
            clock.pause(SLICE);
        }
    }

    long sent() {
        return sent;
    }

    @Override
    public void close() {
        ended = true;
        try {
            thread.join(STOP_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        station.close();
    }
}
