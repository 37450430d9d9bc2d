package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.measure.Metric;
import burnerbridge.model.RunningClock;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the adapter counts, held against what a station sent. */
final class FiguresIT {
    private static final String READ = "00 05 01 0C 0C 02 00 00 03 19 4B";

    private static double figure(Rig rig, String sample) {
        return Told.figures(rig.adapter).getOrDefault("burner_bridge_bacnet_" + sample, Double.NaN);
    }

    @Test
    void beforeTheStartAndAfterTheEndThereAreNone() throws BacnetStartException {
        Plant plant = new Plant(new RunningClock());
        BacnetAdapter adapter = new BacnetAdapter(Plant.settings(0), plant.site, plant.table, new RunningClock());
        assertThat(Told.figures(adapter)).isEmpty();
        adapter.start();
        assertThat(Told.figures(adapter)).isNotEmpty();
        adapter.close();
        assertThat(Told.figures(adapter)).isEmpty();
    }

    @Test
    void datagramsAreCountedOnceByWhatBecameOfThem() {
        try (Rig rig = new Rig()) {
            assertThat(rig.station.ask(READ)).startsWith("30");
            assertThat(rig.station.ask("00 05 01 11 09 05")).startsWith("60"); // rejected at the edge
            rig.station.sendRaw(new byte[] {(byte) 0x82, 0, 0, 4});
            rig.station.send("10 00 C4 02 00 00 03 22 05 C4 91 03 21 63");
            assertThat(rig.station.ask(READ)).startsWith("30");
            assertThat(figure(rig, "received_datagrams[]")).isEqualTo(5);
            assertThat(figure(rig, "received_bytes[]")).isEqualTo(17 + 12 + 4 + 20 + 17);
            assertThat(figure(rig, "passed_datagrams[]")).isEqualTo(2);
            assertThat(figure(rig, "answered_datagrams[reject]")).isEqualTo(1);
            assertThat(figure(rig, "dropped_datagrams[not-bacnet-ip]")).isEqualTo(1);
            assertThat(figure(rig, "dropped_datagrams[own-instance]")).isEqualTo(1);
            assertThat(figure(rig, "unsent_datagrams[]")).isZero();
            assertThat(figure(rig, "waiting_requests[]")).isZero();
            // Three answers, and at the start the question for routers, the announcement and the question who else.
            assertThat(figure(rig, "sent_datagrams[]")).isEqualTo(6);
            assertThat(figure(rig, "objects[]")).isEqualTo(18);
        }
    }

    @Test
    void subscriptionsAndTheirNotificationsAreCounted() {
        try (Rig rig = new Rig()) {
            rig.plant.good("flue-temperature", 72.3);
            // Confirmed, of process 18, for Analog Input 5.
            rig.station.send("00 05 0F 05 09 12 1C 00 00 00 05 29 01 39 3C");
            assertThat(rig.station.hearApplication()).isEqualTo("20 0F 05");
            String notification = rig.station.hearApplication();
            assertThat(notification).startsWith("00");
            assertThat(figure(rig, "subscriptions[]")).isEqualTo(1);
            assertThat(figure(rig, "notifications[confirmed]")).isEqualTo(1);
            assertThat(figure(rig, "notification_answers[acknowledged]")).isZero();
            rig.station.send("20 " + notification.substring(6, 8) + " 01");
            await().untilAsserted(() -> assertThat(figure(rig, "notification_answers[acknowledged]"))
                    .isEqualTo(1));
            assertThat(figure(rig, "notifications[unconfirmed]")).isZero();
            assertThat(figure(rig, "waiting_notifications[]")).isZero();
            assertThat(figure(rig, "dropped_subscribers[]")).isZero();
        }
    }

    @Test
    void nothingThatAStationSendsMakesMoreSamples() {
        try (Rig rig = new Rig()) {
            Map<String, Metric> before = metrics(rig);
            for (int i = 0; i < 256; i++) {
                rig.station.sendRaw(new byte[] {(byte) 0x81, (byte) i, 0, 4});
                rig.station.send(String.format(Locale.ROOT, "10 00 C4 02 00 %02X 03 22 05 C4 91 03 21 63", i));
                if (i % 20 == 0) {
                    assertThat(rig.answers()).isTrue(); // the socket holds no more than some hundreds
                }
            }
            assertThat(rig.answers()).isTrue();
            Map<String, Metric> after = metrics(rig);
            // The age of the latest broadcast comes with the first one, which none of these was.
            assertThat(after.keySet()).isEqualTo(before.keySet());
        }
    }

    private static Map<String, Metric> metrics(Rig rig) {
        Map<String, Metric> metrics = new HashMap<>();
        rig.adapter.measure((metric, value, labels) -> metrics.put(metric.name() + List.of(labels), metric));
        return metrics;
    }
}
