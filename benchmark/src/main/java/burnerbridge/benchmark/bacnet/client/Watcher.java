package burnerbridge.benchmark.bacnet.client;

import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.measure.MachineClock;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.BitSet;

/** Subscribes to every object of a device and looks at what it is told; acknowledges what wants it. */
public final class Watcher implements AutoCloseable {
    private static final int PATIENCE_MILLIS = 1000;
    private static final int INVOKE_IDS = 256;

    private final Station station;
    private final Device device;
    private final MachineClock clock;
    private final boolean confirmed;

    /**
     * What was told of one change of everything.
     *
     * @param told notifications of the new value
     * @param length from the command to the last of them
     */
    public record Told(int told, Duration length, Duration processorTime) {

        public double perSecond() {
            return told / (length.toNanos() / 1e9);
        }
    }

    public Watcher(Device device, boolean confirmed, MachineClock clock) {
        this.station = new Station("127.0.0.1", device.port(), PATIENCE_MILLIS);
        this.device = device;
        this.clock = clock;
        this.confirmed = confirmed;
    }

    /** One after the other, so that nothing is lost. */
    public void subscribeToAll() {
        for (int input = 1; input <= device.objects(); input++) {
            Frames.subscribe(station.frame(), input % INVOKE_IDS, input, confirmed);
            station.send();
            while (!isAcknowledgement(heard())) {
                acknowledge();
            }
        }
        while (station.hear()) {
            acknowledge();
        }
    }

    private ByteBuffer heard() {
        if (!station.hear()) {
            throw new IllegalStateException("no answer to a subscription");
        }
        return station.heard();
    }

    private static boolean isAcknowledgement(ByteBuffer reply) {
        int kind = Frames.kind(reply);
        if (kind > Frames.COMPLEX_ACK) {
            throw new IllegalStateException("a subscription was refused");
        }
        return kind == Frames.SIMPLE_ACK;
    }

    private void acknowledge() {
        if (Frames.kind(station.heard()) == Frames.CONFIRMED) {
            Frames.acknowledge(station.frame(), Frames.invokeIdOfRequest(station.heard()));
            station.send();
        }
    }

    /** Lets everything change once and counts what comes, until all is there or nothing more comes. */
    public Told all() {
        Duration processor = device.processorTime();
        long begin = clock.ticks();
        long last = begin;
        int value = device.changeAll();
        int told = 0;
        while (told < device.objects() && station.hear()) {
            acknowledge();
            if (Frames.toldValue(station.heard()) == value) {
                told++;
                last = clock.ticks();
            }
        }
        return new Told(
                told,
                Duration.ofNanos(Math.max(1, last - begin)),
                device.processorTime().minus(processor));
    }

    /** Lets the first object change so often; from each change to its notification. */
    public Delays single(int times) {
        int first = device.changeOften(times);
        long[] toldAt = new long[times];
        BitSet told = new BitSet();
        while (told.cardinality() < times && station.hear()) {
            long now = clock.ticks();
            acknowledge();
            int change = Frames.toldValue(station.heard()) - first;
            if (change >= 0 && change < times) {
                toldAt[change] = now;
                told.set(change);
            }
        }
        return since(device.changedAt(), toldAt, told);
    }

    private static Delays since(long[] changedAt, long[] toldAt, BitSet told) {
        Delays delays = new Delays();
        told.stream().forEach(i -> {
            if (toldAt[i] - changedAt[i] < 0) {
                throw new IllegalStateException("the clocks of two processes differ here, so that no delay is known");
            }
            delays.add(toldAt[i] - changedAt[i]);
        });
        return delays;
    }

    @Override
    public void close() {
        station.close();
    }
}
