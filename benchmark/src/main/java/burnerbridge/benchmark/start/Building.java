package burnerbridge.benchmark.start;

import burnerbridge.benchmark.bacnet.client.Frames;
import burnerbridge.benchmark.bacnet.client.Station;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.Mosquitto;
import burnerbridge.benchmark.program.Program;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** Who waits on the building side for the first good value, by MQTT and by BACnet at once. For one start. */
final class Building implements AutoCloseable {
    /** How often it is asked by BACnet, a hundred times a second; the usual limits allow that. */
    private static final int ASKED_EVERY_MILLIS = 10;

    private static final Duration TO_SUBSCRIBE = Duration.ofMillis(500);
    private static final long LONGEST_SECONDS = 120;
    private static final int INVOKE_IDS = 256;

    private final MachineClock clock;
    private final Program subscriber;
    private final Station station;
    private final int[] inputs;
    private final CompletableFuture<Long> byMqtt;
    private final CompletableFuture<Long> byBacnet;
    private volatile boolean closed;

    /** Listens when it has returned. */
    Building(ExampleSite site, Mosquitto broker, MachineClock clock) {
        this.clock = clock;
        this.inputs = site.inputs().stream().mapToInt(Integer::intValue).toArray();
        this.subscriber = broker.subscriber(site.topics().toArray(new String[0]));
        this.station = new Station("127.0.0.1", site.bacnet(), ASKED_EVERY_MILLIS);
        clock.pause(TO_SUBSCRIBE);
        this.byMqtt = inThread("building mqtt", this::hear);
        this.byBacnet = inThread("building bacnet", this::ask);
    }

    private interface Wait {
        long tick();
    }

    private static CompletableFuture<Long> inThread(String name, Wait wait) {
        CompletableFuture<Long> tick = new CompletableFuture<>();
        Thread thread = new Thread(
                () -> {
                    try {
                        tick.complete(wait.tick());
                    } catch (RuntimeException e) {
                        tick.completeExceptionally(e);
                    }
                },
                name);
        thread.setDaemon(true);
        thread.start();
        return tick;
    }

    private long hear() {
        while (!isGood(subscriber.line())) {
            // Before its registers are read a point tells that it has no value yet.
        }
        return clock.ticks();
    }

    private static boolean isGood(String payload) {
        return payload.startsWith("{\"value\":") && payload.contains("\"quality\":\"good\"");
    }

    private long ask() {
        for (int id = 0; !closed; id = (id + 1) % INVOKE_IDS) {
            Frames.readFlags(station.frame(), id, inputs);
            station.send();
            long asked = clock.ticks();
            if (station.hear() && Frames.hasClearFlags(station.heard())) {
                return clock.ticks();
            }
            clock.pause(Duration.ofMillis(ASKED_EVERY_MILLIS).minusNanos(clock.ticks() - asked));
        }
        throw new IllegalStateException("nothing good by BACnet until it was closed");
    }

    /** When the first came by MQTT. */
    long firstByMqtt() {
        return await(byMqtt, "MQTT");
    }

    long firstByBacnet() {
        return await(byBacnet, "BACnet");
    }

    private static long await(CompletableFuture<Long> first, String way) {
        try {
            return first.get(LONGEST_SECONDS, TimeUnit.SECONDS);
        } catch (TimeoutException | ExecutionException e) {
            throw new IllegalStateException("nothing good came by " + way, e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        closed = true;
        subscriber.close();
        station.close();
    }
}
