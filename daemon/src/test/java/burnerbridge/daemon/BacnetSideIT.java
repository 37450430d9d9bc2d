package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.config.SiteFolder;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import java.io.IOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the BACnet side tells and counts before its port can be had, and after. */
class BacnetSideIT {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private final HandClock clock = new HandClock();

    private BacnetSide side(String bind, int port) throws IOException {
        Files.writeString(
                folder.resolve("points.csv"),
                "name,table,address,format,role\nfuel,holding-register,1,uint16,measurement\n");
        Files.writeString(folder.resolve("site.yaml"), """
                site: quillmere
                time-zone: Europe/Lisbon
                lines:
                  annex: {tcp: {host: 127.0.0.1, port: 1}}
                types:
                  hot-water: {points: points.csv, numbering: wire}
                controllers:
                  boiler-1: {line: annex, unit: 1, type: hot-water}
                bacnet: {device-instance: 3, bind: %s, port: %d}
                """.replace("%s", bind).replace("%d", Integer.toString(port)));
        Site site = SiteFolder.load(folder).site().orElseThrow();
        BacnetSettings settings = site.bacnet().orElseThrow();
        ValueTable table = new ValueTable(site.points(), site.owners());
        return new BacnetSide(() -> new BacnetAdapter(settings, site, table, clock));
    }

    private static List<Trouble> troubles(BacnetSide side) {
        List<Trouble> troubles = new ArrayList<>();
        side.tell(troubles::add);
        return troubles;
    }

    private static Map<String, Double> figures(BacnetSide side) {
        Map<String, Double> figures = new HashMap<>();
        side.measure((metric, value, labels) -> figures.put(metric.name() + List.of(labels), value));
        return figures;
    }

    @Test
    void aTakenPortIsToldSinceTheFirstAttemptAndWithWhatToLookAtUntilItIsFree() throws IOException {
        try (DatagramSocket taker = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            int port = taker.getLocalPort();
            try (BacnetSide side = side("127.0.0.1", port)) {
                assertThat(troubles(side)).isEmpty();
                Stamp first = clock.now();
                long due = side.step(clock.ticks());
                assertThat(due - clock.ticks()).isEqualTo(Duration.ofSeconds(1).toNanos());
                clock.forward(Duration.ofSeconds(1));
                due = side.step(clock.ticks());
                assertThat(due - clock.ticks()).isEqualTo(Duration.ofSeconds(2).toNanos());

                assertThat(troubles(side))
                        .containsExactly(new Trouble(
                                Place.BRIDGE,
                                "bacnet",
                                "UDP port " + port + " on 127.0.0.1 is taken by another program",
                                "who has it: ss -ulpn 'sport = :" + port + "', as root",
                                first,
                                Trouble.Weight.NOT_READY));
                assertThat(figures(side)).isEqualTo(Map.of("burner_bridge_bacnet_serving[]", 0.0));

                taker.close();
                clock.forward(Duration.ofSeconds(2));
                side.step(clock.ticks());
                assertThat(troubles(side)).isEmpty();
                assertThat(figures(side))
                        .containsEntry("burner_bridge_bacnet_serving[]", 1.0)
                        .containsEntry("burner_bridge_bacnet_unsent_datagrams[]", 0.0);
            }
        }
    }

    @Test
    void anAddressThatThisMachineDoesNotHaveIsATroubleOfTheNetwork() throws IOException {
        try (BacnetSide side = side("192.0.2.77", 47808)) {
            side.step(clock.ticks());
            assertThat(troubles(side)).singleElement().satisfies(trouble -> {
                assertThat(trouble.place()).isEqualTo(Place.NETWORK);
                assertThat(trouble.sentence())
                        .isEqualTo(
                                "bacnet: no network interface of this machine has the address 192.0.2.77; look at the"
                                        + " addresses of this machine (ip -br address), and bacnet.bind in site.yaml");
            });
        }
    }
}
