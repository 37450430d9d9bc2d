package burnerbridge.bacnet.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.Plant;
import burnerbridge.bacnet.Rig;
import burnerbridge.bacnet.Station;
import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.model.HandClock;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Registers;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.Bindings;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/**
 * An hour with three hostile stations, by a clock that the test moves: sockets and threads are real. Each second
 * every value changes, one station subscribes to everything and acknowledges nothing, one sends twelve times
 * what it may, and one sends damaged frames. A fourth asks politely and must be answered each time.
 */
final class HostileHourIT {
    private static final long SEED = 20261128L;
    private static final int SECONDS = 3600;
    private static final int POINTS = 50;
    /** Of one station, a second; of one host, ten times that. */
    private static final int REQUESTS = 5;

    private static final int SUBSCRIPTIONS = 100;
    private static final int FLOOD = 60;
    private static final int DAMAGED = 28;
    private static final long GROWTH = 4L << 20;

    private final HandClock clock = new HandClock();
    private final Rig rig = new Rig(plant(clock), BacnetOptions.USUAL.withLimits(REQUESTS, SUBSCRIPTIONS), clock);
    private final Station subscriber = Station.ofHost("127.0.0.2", rig.adapter.port());
    private final Station flooder = Station.ofHost("127.0.0.3", rig.adapter.port());
    private final Station damager = Station.ofHost("127.0.0.4", rig.adapter.port());
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private final Logger logger = (Logger) LoggerFactory.getLogger("burnerbridge.bacnet");
    private final Random random = new Random(SEED);
    private int subscribed;

    /** Two boilers of fifty points each. */
    private static Plant plant(HandClock clock) {
        List<PointDefinition> points = new ArrayList<>();
        List<Bindings.Binding> bindings = new ArrayList<>();
        for (int i = 1; i <= POINTS; i++) {
            String name = "value-" + i;
            points.add(Plant.point(name, PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_INPUT));
            bindings.add(Plant.binding(name, ObjectKind.ANALOG_INPUT, i));
        }
        return new Plant(clock, ZoneOffset.UTC, points, new Bindings(bindings));
    }

    HostileHourIT() {
        log.start();
        logger.addAppender(log);
        logger.setLevel(Level.INFO);
        logger.setAdditive(false);
    }

    @AfterEach
    void close() {
        logger.setAdditive(true);
        logger.setLevel(null);
        logger.detachAppender(log);
        List.of(subscriber, flooder, damager).forEach(Station::close);
        rig.close();
    }

    @Test
    void othersAreAnsweredAndNothingGrows() {
        System.out.println("seed " + SEED);
        second(0);
        Set<String> threads = Rig.threads();
        for (int second = 1; second < 60; second++) {
            second(second);
        }
        long used = used();
        int mostLines = log.list.size();
        for (int minute = 1; minute < SECONDS / 60; minute++) {
            int before = log.list.size();
            for (int second = 0; second < 60; second++) {
                second(60 * minute + second);
            }
            mostLines = Math.max(mostLines, log.list.size() - before);
        }

        assertThat(mostLines).as("log lines a minute").isBetween(1, 60);
        log.list.clear();
        await().untilAsserted(
                        () -> assertThat(used() - used).as("growth, octets").isLessThan(GROWTH));
        assertThat(Rig.threads()).isEqualTo(threads);
        CovDesk desk = rig.adapter.subscriptions().orElseThrow();
        // Filled within 20 s and dropped when three notifications were repeated twice, 18 s each, in vain.
        assertThat(desk.droppedPeers()).isGreaterThan(SECONDS / 90);
        assertThat(rig.adapter.counters().orElseThrow().droppedCount(DropReason.FLOOD))
                .isGreaterThan((long) SECONDS * (FLOOD - 10 * REQUESTS) - 1000);
        assertThat(rig.adapter.counters().orElseThrow().droppedCount(DropReason.BUSY))
                .isGreaterThan(SECONDS);
    }

    private void second(int number) {
        for (SitePoint point : rig.plant.table.points()) {
            rig.plant.table.publish(point, Reading.good(new RealValue(number, 0), clock.now(), Registers.of(1)));
        }
        for (int i = 0; i < REQUESTS; i++) {
            subscribe(subscribed++);
        }
        for (int i = 0; i < FLOOD; i++) {
            flooder.send("00 05 01 0C 0C 02 00 00 03 19 4C");
        }
        for (int i = 0; i < DAMAGED; i++) {
            damager.sendNetwork(Damage.any(random));
        }
        // What was sent before has been looked at when this is answered.
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 4B"))
                .isEqualTo("30 01 0C 0C 02 00 00 03 19 4B 3E C4 02 00 00 03 3F");
        assertThat(rig.station.ask("00 05 02 0E 0C 00 00 00 07 1E 09 4F 1F 0C 00 00 03 EF 1E 09 75 1F"))
                .isEqualTo("30 02 0E 0C 00 00 00 07 1E 29 4F 4E 91 00 4F 1F 0C 00 00 03 EF 1E 29 75 4E 91 3E 4F 1F");
        assertThat(rig.adapter.subscriptions().orElseThrow().count()).isLessThanOrEqualTo(2 * SUBSCRIPTIONS);
        clock.forward(Duration.ofSeconds(1));
    }

    /** To every object in turn, confirmed, for eight hours. */
    private void subscribe(int number) {
        int object = number % (2 * POINTS + 2);
        int identifier = object < 2 * POINTS
                ? object % POINTS + 1 + (object < POINTS ? 0 : 1000)
                : 3 << 22 | (object == 2 * POINTS ? 0 : 1000);
        subscriber.send(
                String.format(Locale.ROOT, "00 05 %02X 05 09 12 1C %08X 29 01 3A 70 80", number & 0xFF, identifier));
    }

    /** Octets in use when everything unused was cleared. */
    private static long used() {
        System.gc();
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }
}
