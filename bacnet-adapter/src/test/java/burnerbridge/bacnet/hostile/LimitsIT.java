package burnerbridge.bacnet.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.Plant;
import burnerbridge.bacnet.Rig;
import burnerbridge.bacnet.Station;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.Bindings;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.States;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** What one station can take from the others: nothing. */
final class LimitsIT {
    private static final int POINTS = 5_000;

    private static Plant large() {
        List<PointDefinition> points = new ArrayList<>();
        List<Bindings.Binding> bindings = new ArrayList<>();
        for (int i = 1; i <= POINTS; i++) {
            String name = "value-" + i;
            points.add(Plant.point(name, PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_INPUT));
            bindings.add(Plant.binding(name, ObjectKind.ANALOG_INPUT, i));
        }
        // Two boilers, so twice as many objects.
        return new Plant(new RunningClock(), ZoneOffset.UTC, points, new Bindings(bindings), 100_000);
    }

    @Test
    void tenThousandObjectsAreListedAndReadByIndex() {
        try (Rig rig = new Rig(large(), BacnetOptions.USUAL.withLimits(100_000, 500))) {
            // 10,000 points, two that tell whether a controller answers, two views, and the device.
            assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 4C 29 00"))
                    .endsWith("3E 22 27 15 3F");
            for (int index : new int[] {1, 2, 5000, 10_005}) {
                String request = String.format(Locale.ROOT, "00 05 01 0C 0C 02 00 00 03 19 4C 2A %04X", index);
                assertThat(rig.station.ask(request)).startsWith("30 01 0C").contains("3E C4");
            }
            assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 4C 2A 27 16"))
                    .isEqualTo("50 01 0C 91 02 91 2A");
            assertThat(rig.station.ask("00 05 01 0C 0C 00 00 13 88 19 4D")).startsWith("30 01 0C");
        }
    }

    @Test
    void oneStationIsSlowedAndLosesNothing() {
        try (Rig rig = new Rig(BacnetOptions.USUAL.withLimits(50, 500))) {
            long start = System.nanoTime();
            for (int i = 0; i < 100; i++) {
                assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 4B")).startsWith("30 01");
            }
            assertThat(Duration.ofNanos(System.nanoTime() - start)).isGreaterThan(Duration.ofMillis(900));
        }
    }

    @Test
    void aStationThatFloodsDelaysOnlyItself() {
        try (Rig rig = new Rig();
                Station flooder = Station.talkingTo(rig.adapter.port())) {
            for (int i = 0; i < 2_000; i++) {
                flooder.send("00 05 01 0C 0C 02 00 00 03 19 4C");
                if (i % 100 == 0) {
                    assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 4B"))
                            .startsWith("30 01");
                }
            }
            assertThat(rig.answers()).isTrue();
        }
    }

    @Test
    void aHostThatSendsTenTimesWhatAStationMayIsNotListenedToBeyond() {
        try (Rig rig = new Rig(BacnetOptions.USUAL.withLimits(5, 500))) {
            for (int i = 0; i < 500; i++) {
                rig.station.sendRaw(new byte[] {(byte) 0x81, 0x0A, 0, 5, 9});
            }
            await().untilAsserted(() -> assertThat(
                            rig.adapter.counters().orElseThrow().droppedCount(DropReason.FLOOD))
                    .isGreaterThan(100));
        }
    }

    @Test
    void oneSubscriptionMoreThanAStationMayHaveIsRefused() {
        try (Rig rig = new Rig(BacnetOptions.USUAL.withLimits(100_000, 3))) {
            String[] objects = {"00 00 00 05", "00 00 00 0A", "00 00 00 10", "00 00 00 11"};
            for (int i = 0; i < 3; i++) {
                rig.station.send("00 02 0F 05 09 12 1C " + objects[i] + " 29 00 39 3C");
                assertThat(rig.station.hearApplication()).isEqualTo("20 0F 05");
                rig.station.hearApplication();
            }
            // resources / no-space-to-add-list-element
            assertThat(rig.station.ask("00 02 0F 05 09 12 1C " + objects[3] + " 29 00 39 3C"))
                    .isEqualTo("50 0F 05 91 03 91 13");
            try (Station other = Station.talkingTo(rig.adapter.port())) {
                assertThat(other.ask("00 02 0F 05 09 12 1C " + objects[3] + " 29 00 39 3C"))
                        .isEqualTo("20 0F 05");
            }
        }
    }

    @Test
    void aSubscriptionWithoutEndIsGivenWhereTheSiteAllowsIt() {
        BacnetOptions usual = BacnetOptions.USUAL;
        BacnetOptions endless = new BacnetOptions(false, usual.objectNames(), usual.foreignDevice(), 200, 500, true);
        String request = "00 02 0F 05 09 12 1C 00 00 00 05 29 00 39 00";
        try (Rig rig = new Rig(endless)) {
            assertThat(rig.station.ask(request)).isEqualTo("20 0F 05");
        }
        try (Rig rig = new Rig()) {
            assertThat(rig.station.ask(request)).isEqualTo("50 0F 05 91 05 91 25");
        }
    }
}
