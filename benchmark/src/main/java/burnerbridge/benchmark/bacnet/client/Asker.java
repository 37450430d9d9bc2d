package burnerbridge.benchmark.bacnet.client;

import burnerbridge.benchmark.measure.MachineClock;
import java.nio.ByteBuffer;
import java.time.Duration;

/** Asks a device, with so many requests on their way at once, each replaced when its reply is there. */
public final class Asker implements AutoCloseable {
    private static final int PATIENCE_MILLIS = 1000;
    private static final int INVOKE_IDS = 256;

    private final Station station;
    private final MachineClock clock;
    private final Service.Walk walk;
    private final long[] sentAt = new long[INVOKE_IDS];
    private final int[] replyLength = new int[INVOKE_IDS];
    private int nextId;
    private int onTheirWay;

    /**
     * What one round saw.
     *
     * @param lost requests without a reply
     */
    public record Round(Delays delays, Duration length, int lost) {

        public double perSecond() {
            return delays.count() / (length.toNanos() / 1e9);
        }
    }

    public Asker(int port, int objects, MachineClock clock) {
        this.station = new Station("127.0.0.1", port, PATIENCE_MILLIS);
        this.walk = new Service.Walk(objects);
        this.clock = clock;
    }

    public Round ask(Service service, int atOnce, Duration length) {
        Delays delays = new Delays();
        int lost = 0;
        long begin = clock.ticks();
        long end = begin + length.toNanos();
        onTheirWay = 0;
        for (int i = 0; i < atOnce; i++) {
            send(service);
        }
        while (onTheirWay > 0) {
            if (!station.hear()) {
                lost += onTheirWay;
                onTheirWay = 0;
                break;
            }
            long now = clock.ticks();
            if (take(delays, now) && end - now > 0) {
                send(service);
            }
        }
        return new Round(delays, Duration.ofNanos(clock.ticks() - begin), lost);
    }

    private void send(Service service) {
        nextId = (nextId + 1) % INVOKE_IDS;
        replyLength[nextId] = service.fill(station.frame(), nextId, walk);
        sentAt[nextId] = clock.ticks();
        onTheirWay++;
        station.send();
    }

    /** Whether it was the reply to a request that was on its way. */
    private boolean take(Delays delays, long now) {
        ByteBuffer reply = station.heard();
        int id = Frames.invokeId(reply);
        if (sentAt[id] == 0) {
            return false;
        }
        if (Frames.kind(reply) != Frames.COMPLEX_ACK || reply.limit() != replyLength[id]) {
            throw new IllegalStateException("not the reply that was asked for, of " + reply.limit() + " octets");
        }
        delays.add(now - sentAt[id]);
        sentAt[id] = 0;
        onTheirWay--;
        return true;
    }

    @Override
    public void close() {
        station.close();
    }
}
