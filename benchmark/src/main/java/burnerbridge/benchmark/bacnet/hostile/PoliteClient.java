package burnerbridge.benchmark.bacnet.hostile;

import burnerbridge.benchmark.bacnet.client.Asker;
import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.client.Service;
import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.measure.MachineClock;
import java.time.Duration;

/** Asks at a steady rate, one request after the other, in turn for one value and for twenty. */
final class PoliteClient implements AutoCloseable {
    private static final long SECOND = 1_000_000_000L;

    private final Asker asker;
    private final MachineClock clock;
    private final long between;
    private int asked;

    /** @param lost requests that were never answered */
    record Seen(Delays delays, int lost) {}

    PoliteClient(Device device, int perSecond, MachineClock clock) {
        this.asker = new Asker(device.port(), device.objects(), clock);
        this.clock = clock;
        this.between = SECOND / perSecond;
    }

    Seen askFor(Duration length) {
        Delays delays = new Delays();
        int lost = 0;
        long begin = clock.ticks();
        for (long due = begin; due - begin < length.toNanos(); due += between) {
            clock.pause(Duration.ofNanos(Math.max(0, due - clock.ticks())));
            Service service = asked++ % 2 == 0 ? Service.READ_PROPERTY : Service.READ_PROPERTY_MULTIPLE;
            Asker.Round one = asker.ask(service, 1, Duration.ZERO);
            delays.addAll(one.delays());
            lost += one.lost();
        }
        return new Seen(delays, lost);
    }

    @Override
    public void close() {
        asker.close();
    }
}
