package burnerbridge.benchmark.bacnet.hostile;

import burnerbridge.benchmark.bacnet.client.Frames;
import burnerbridge.benchmark.bacnet.client.Station;
import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.measure.MachineClock;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;

/** All hostile stations at work, each a host of its own as far as addresses of loopback are hosts. */
final class Attacks implements AutoCloseable {
    private static final int PATIENCE_MILLIS = 1;
    private static final int INVOKE_IDS = 256;
    private static final int SUBSCRIPTIONS_PER_SECOND = 150;

    private final Attack subscriber;
    private final Attack flooder;
    private final Attack mutator;

    private Attacks(Attack subscriber, Attack flooder, Attack mutator) {
        this.subscriber = subscriber;
        this.flooder = flooder;
        this.mutator = mutator;
    }

    static Attacks start(Device device, int flood, int mutations, long seed, MachineClock clock) {
        Mutations made = new Mutations(seed);
        return new Attacks(
                new Attack(
                                "subscriber",
                                new Station("127.0.0.2", device.port(), PATIENCE_MILLIS),
                                SUBSCRIPTIONS_PER_SECOND,
                                subscriptions(device.objects()),
                                clock)
                        .start(),
                new Attack("flooder", new Station("127.0.0.3", device.port(), PATIENCE_MILLIS), flood, lists(), clock)
                        .start(),
                new Attack(
                                "mutator",
                                new Station("127.0.0.4", device.port(), PATIENCE_MILLIS),
                                mutations,
                                made::fill,
                                clock)
                        .start());
    }

    /** To every object in turn, confirmed. */
    private static Consumer<ByteBuffer> subscriptions(int objects) {
        AtomicInteger next = new AtomicInteger();
        return frame -> {
            int count = next.getAndIncrement();
            Frames.subscribe(frame, count % INVOKE_IDS, 1 + count % objects, true);
        };
    }

    /** Requests for what costs most to make. */
    private static Consumer<ByteBuffer> lists() {
        AtomicInteger next = new AtomicInteger();
        return frame -> Frames.readObjectList(frame, next.getAndIncrement() % INVOKE_IDS);
    }

    String sent() {
        return "subscriptions " + subscriber.sent() + ", flood " + flooder.sent() + ", mutations " + mutator.sent();
    }

    @Override
    public void close() {
        List.of(subscriber, flooder, mutator).forEach(Attack::close);
    }
}
