package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.outside.FreePort;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.HandClock;
import burnerbridge.model.RunningClock;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Two devices of one instance on one network, as far as the addresses of loopback are one. */
final class SameInstanceIT {
    private static final String LOOK_AT =
            "; look at device-instance in site.yaml and the instance of that device: only one may be ";

    private final Plant plant = new Plant(new RunningClock());

    private BacnetAdapter bridge(String host, int port, int instance) throws BacnetStartException {
        BacnetSettings settings =
                new BacnetSettings(instance, "quillmere bridge", host, port, Optional.of("127.255.255.255"), 99);
        BacnetAdapter adapter = new BacnetAdapter(settings, plant.site, plant.table, new RunningClock());
        adapter.start();
        return adapter;
    }

    private static void awaitTold(BacnetAdapter adapter, String seen) {
        await().atMost(Duration.ofSeconds(20))
                .untilAsserted(() -> assertThat(Told.troubles(adapter))
                        .singleElement()
                        .satisfies(trouble -> {
                            assertThat(trouble.sentence()).isEqualTo(seen);
                            assertThat(trouble.place()).isEqualTo(Place.NETWORK);
                            assertThat(trouble.weight()).isEqualTo(Trouble.Weight.DEGRADED);
                            assertThat(trouble.since()).isNotNull();
                        }));
    }

    private static boolean answers(BacnetAdapter adapter) {
        try (Station station = Station.talkingTo(adapter.port())) {
            return station.ask("00 05 01 0C 0C 02 00 00 03 19 4B").startsWith("30 01 0C");
        }
    }

    @Test
    void twoBridgesOfOneInstanceTellOfEachOtherAndGoOn() throws BacnetStartException {
        int port = FreePort.udp();
        try (BacnetAdapter first = bridge("127.0.0.1", port, 3);
                BacnetAdapter second = bridge("127.0.0.2", port, 3)) {
            awaitTold(
                    first,
                    "bacnet 127.0.0.1:" + port + ": another device has our device instance 3: it is at 127.0.0.2:"
                            + port + LOOK_AT + 3);
            // The second was not there when the first said who it is, so it has to ask.
            awaitTold(
                    second,
                    "bacnet 127.0.0.2:" + port + ": another device has our device instance 3: it is at 127.0.0.1:"
                            + port + LOOK_AT + 3);
            assertThat(Told.figures(first)).containsEntry("burner_bridge_bacnet_instance_doubles[]", 1.0);
            assertThat(answers(first)).isTrue();
        }
    }

    @Test
    void bridgesOfInstancesOfTheirOwnTellNothing() throws BacnetStartException {
        int port = FreePort.udp();
        try (BacnetAdapter first = bridge("127.0.0.1", port, 3);
                BacnetAdapter second = bridge("127.0.0.2", port, 4)) {
            // Each has heard the other, and its own announcement and question.
            await().untilAsserted(() -> assertThat(Told.figures(first))
                    .hasEntrySatisfying(
                            "burner_bridge_bacnet_broadcasts_heard[others]",
                            count -> assertThat(count).isGreaterThanOrEqualTo(2)));
            await().untilAsserted(() -> assertThat(Told.figures(second))
                    .hasEntrySatisfying(
                            "burner_bridge_bacnet_broadcasts_heard[self]",
                            count -> assertThat(count).isGreaterThanOrEqualTo(3)));
            assertThat(answers(first)).isTrue();
            assertThat(Told.troubles(first)).isEmpty();
            assertThat(Told.troubles(second)).isEmpty();
        }
    }

    /** One socket hears everything there, its own broadcasts too. */
    @Test
    void aBridgeOnEveryAddressDoesNotTakeItselfForAnother() throws BacnetStartException {
        int port = FreePort.udp();
        try (BacnetAdapter every = bridge("0.0.0.0", port, 3)) {
            await().untilAsserted(() -> assertThat(Told.figures(every))
                    .hasEntrySatisfying(
                            "burner_bridge_bacnet_broadcasts_heard[self]",
                            count -> assertThat(count).isGreaterThanOrEqualTo(3)));
            assertThat(answers(every)).isTrue();
            assertThat(Told.troubles(every)).isEmpty();
            assertThat(Told.figures(every)).containsEntry("burner_bridge_bacnet_dropped_datagrams[own-instance]", 0.0);
        }
    }

    @Test
    void anIndependentClientThatSaysToBeUsIsTold() throws BacnetStartException, IOException, InterruptedException {
        OutsideProgram.requireBacnetClient();
        try (BacnetAdapter adapter = bridge("127.0.0.1", 0, 4194302)) {
            int port = FreePort.udp();
            OutsideProgram.output(List.of(
                    "node",
                    OutsideProgram.file("bacnet-client.js").toString(),
                    "127.0.0.1:" + adapter.port(),
                    Integer.toString(port),
                    "i-am",
                    "4194302"));
            awaitTold(
                    adapter,
                    "bacnet 127.0.0.1:" + adapter.port() + ": another device has our device instance 4194302: it is at"
                            + " 127.0.0.1:" + port + LOOK_AT + 4194302);
        }
    }

    /** F.4.9's frame, passed on by a router with the address of a station of network 1001. */
    @Test
    void itIsOverWhenTheOtherHasNotBeenHeardForLong() {
        HandClock clock = new HandClock();
        try (Rig rig = new Rig(new Plant(clock), BacnetOptions.USUAL, clock);
                Station router = Station.broadcasting(rig.adapter.port())) {
            router.sendRaw(
                    Hex.bytes("81 0B 00 1C 01 28 FF FF 00 03 E9 01 19 FE 10 00 C4 02 00 00 03 22 04 00 91 03 21 63"));
            awaitTold(
                    rig.adapter,
                    "bacnet 127.0.0.1:" + rig.adapter.port() + ": another device has our device instance 3: it is at"
                            + " address 19 of network 1001, behind the router 127.0.0.1:" + router.port() + LOOK_AT
                            + 3);
            clock.forward(Duration.ofMinutes(35));
            await().untilAsserted(() -> assertThat(Told.troubles(rig.adapter)).isEmpty());
        }
    }
}
