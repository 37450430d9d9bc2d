package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetSettings;
import java.io.File;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.SocketException;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class StartIT {
    private final Plant plant = new Plant(new RunningClock());

    private BacnetAdapter adapter(BacnetSettings settings) {
        return new BacnetAdapter(settings, plant.site, plant.table, new RunningClock());
    }

    private static int openFiles() {
        String[] files = new File("/proc/self/fd").list();
        return files == null ? 0 : files.length;
    }

    @Test
    void aTakenPortIsToldAndLeaksNothingAndCanBeTriedAgain() throws BacnetStartException, SocketException {
        try (DatagramSocket taker = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            int port = taker.getLocalPort();
            try (BacnetAdapter adapter = adapter(Plant.settings(port))) {
                assertRefused(adapter, port);
                int before = openFiles();
                for (int i = 0; i < 100; i++) {
                    assertRefused(adapter, port);
                }
                assertThat(openFiles()).isLessThanOrEqualTo(before + 3);
                await().untilAsserted(() -> assertThat(Rig.threads()).isEmpty());
                taker.close();
                adapter.start();
                assertThat(adapter.port()).isEqualTo(port);
                try (Station station = Station.talkingTo(port)) {
                    assertThat(station.ask("00 05 01 0C 0C 02 00 00 03 19 4B")).startsWith("30 01 0C");
                }
            }
        }
        await().untilAsserted(() -> assertThat(Rig.threads()).isEmpty());
    }

    private static void assertRefused(BacnetAdapter adapter, int port) {
        assertThatThrownBy(adapter::start)
                .isInstanceOf(BacnetStartException.class)
                .hasMessage("bacnet: UDP port " + port + " on 127.0.0.1 is taken by another program");
    }

    @ParameterizedTest
    @CsvSource({
        "192.0.2.77, no network interface of this machine has the address 192.0.2.77",
        "somewhere, 'somewhere' is no IPv4 address",
        "1.2.3.400, '1.2.3.400' is no IPv4 address",
    })
    void anAddressThatCannotBeBoundIsTold(String bind, String message) {
        BacnetSettings settings = new BacnetSettings(3, "bridge", bind, 0, Optional.empty(), 99);
        try (BacnetAdapter adapter = adapter(settings)) {
            assertThatThrownBy(adapter::start)
                    .isInstanceOf(BacnetStartException.class)
                    .hasMessage("bacnet: " + message);
        }
    }

    @Test
    void startingAndClosingOverAndOverLeavesNothing() throws BacnetStartException {
        adapterStartedAndClosed();
        int files = openFiles();
        for (int i = 0; i < 10; i++) {
            adapterStartedAndClosed();
        }
        await().untilAsserted(() -> assertThat(Rig.threads()).isEmpty());
        assertThat(openFiles()).isLessThanOrEqualTo(files + 3);
    }

    private void adapterStartedAndClosed() throws BacnetStartException {
        BacnetAdapter adapter = adapter(Plant.settings(0));
        adapter.start();
        assertThat(adapter.port()).isPositive();
        adapter.close();
        adapter.close();
    }

    @Test
    void anAdapterStartsOnce() throws BacnetStartException {
        try (BacnetAdapter adapter = adapter(Plant.settings(0))) {
            adapter.start();
            assertThatThrownBy(adapter::start).isInstanceOf(IllegalStateException.class);
        }
        BacnetAdapter closed = adapter(Plant.settings(0));
        closed.close();
        assertThatThrownBy(closed::start).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void closingEnds() throws BacnetStartException {
        BacnetAdapter adapter = adapter(Plant.settings(0));
        adapter.start();
        await().atMost(java.time.Duration.ofSeconds(30)).until(() -> {
            adapter.close();
            return true;
        });
    }

    @Test
    void itSaysHowManyObjectsItServesAndWhichPointsStayOff() {
        try (BacnetAdapter adapter = adapter(Plant.settings(0))) {
            assertThat(adapter.objectCount()).isEqualTo(18);
            assertThat(adapter.pointsOff().stream().map(o -> o.point().id().toString()))
                    .containsExactly(
                            "boiler-1.not-bound", "boiler-1.curve-1", "boiler-2.not-bound", "boiler-2.curve-1");
        }
    }

    @Test
    void valuesReadBeforeTheStartAreServedFromTheFirstMoment() throws BacnetStartException {
        plant.good("flue-temperature", 72.3);
        try (BacnetAdapter adapter = adapter(Plant.settings(0))) {
            adapter.start();
            try (Station station = Station.talkingTo(adapter.port())) {
                assertThat(station.ask("00 04 01 0C 0C 00 00 00 05 19 55"))
                        .isEqualTo("30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F");
            }
        }
    }

    @Test
    void everyAddressIsServedByOneSocket() throws BacnetStartException {
        BacnetSettings settings = new BacnetSettings(3, "bridge", "0.0.0.0", 0, Optional.of("127.255.255.255"), 99);
        try (BacnetAdapter adapter = adapter(settings)) {
            adapter.start();
            try (Station station = Station.talkingTo(adapter.port())) {
                assertThat(station.ask("00 05 01 0C 0C 02 00 00 03 19 4B")).startsWith("30 01 0C");
            }
            await().untilAsserted(() -> assertThat(Rig.threads()).noneMatch(n -> n.startsWith("bacnet broadcasts")));
        }
    }
}
