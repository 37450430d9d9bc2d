package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.model.BitValue;
import burnerbridge.model.Reason;
import burnerbridge.model.StateValue;
import java.math.BigDecimal;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Subscriptions; the form of notifications is that of ASHRAE 135, F.1.2 and F.1.3, hex from memory. */
final class CovIT {
    private final Rig rig = new Rig();

    @AfterEach
    void close() {
        rig.close();
    }

    private void shows(String name, String request, String value) {
        await().untilAsserted(() -> assertThat(rig.station.ask(request)).contains(value));
        assertThat(name).isNotEmpty();
    }

    /** The octets of an unconfirmed notification to process 18, with their time left struck out. */
    private static String notification(String object, String value, String flags) {
        return "10 02 09 12 1C 02 00 00 03 2C " + object + " 39 xx 4E 09 55 2E " + value + " 2F 09 6F 2E 82 04 " + flags
                + " 2F 4F";
    }

    private static String withoutTimeLeft(String apdu) {
        return apdu.replaceFirst(" 39 .. 4E", " 39 xx 4E");
    }

    private String heard() {
        return withoutTimeLeft(rig.station.hearApplication());
    }

    /** Subscribes without confirmation for a minute and takes the first notification. */
    private String subscribe(String object) {
        rig.station.send("00 02 0F 05 09 12 1C " + object + " 29 00 39 3C");
        String first = rig.station.hearApplication();
        String second = rig.station.hearApplication();
        assertThat(java.util.List.of(first, second)).contains("20 0F 05");
        return withoutTimeLeft(first.equals("20 0F 05") ? second : first);
    }

    @Test
    void aSubscriptionIsAnsweredAndToldTheValueAtOnce() {
        rig.plant.good("fuel", 65.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 82 00 00");
        assertThat(subscribe("00 00 00 0A")).isEqualTo(notification("00 00 00 0A", "44 42 82 00 00", "00"));
    }

    @Test
    void aChangeOfTheValueOrTheFlagsIsTold() {
        rig.plant.good("fuel", 65.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 82 00 00");
        subscribe("00 00 00 0A");
        rig.plant.good("fuel", 80.0);
        assertThat(heard()).isEqualTo(notification("00 00 00 0A", "44 42 A0 00 00", "00"));
        rig.plant.not("fuel", Reason.NO_REPLY);
        assertThat(heard()).isEqualTo(notification("00 00 00 0A", "44 42 A0 00 00", "40"));
        rig.plant.good("fuel", 80.0);
        assertThat(heard()).isEqualTo(notification("00 00 00 0A", "44 42 A0 00 00", "00"));
    }

    @Test
    void bitsAndStatesAreTold() {
        rig.plant.good("flame", new BitValue(false));
        rig.plant.good("phase", new StateValue(0, "standby"));
        shows("flame", "00 04 01 0C 0C 00 C0 00 12 19 67", "3E 91 00 3F");
        shows("phase", "00 04 01 0C 0C 03 40 00 14 19 67", "3E 91 00 3F");
        assertThat(subscribe("00 C0 00 12")).isEqualTo(notification("00 C0 00 12", "91 00", "00"));
        rig.plant.good("flame", new BitValue(true));
        assertThat(heard()).isEqualTo(notification("00 C0 00 12", "91 01", "00"));
        assertThat(subscribe("03 40 00 14")).isEqualTo(notification("03 40 00 14", "21 01", "00"));
        rig.plant.good("phase", new StateValue(50, "run"));
        assertThat(heard()).isEqualTo(notification("03 40 00 14", "21 04", "00"));
    }

    @Test
    void aChangeSmallerThanTheIncrementIsNotTold() {
        rig.plant.good("oxygen", 3.0);
        shows("oxygen", "00 04 01 0C 0C 00 00 00 10 19 55", "44 40 40 00 00");
        subscribe("00 00 00 10");
        rig.plant.good("oxygen", 3.4);
        shows("oxygen", "00 04 01 0C 0C 00 00 00 10 19 55", "44 40 59 99 9A");
        rig.station.forget();
        rig.plant.good("oxygen", 3.5);
        assertThat(heard()).isEqualTo(notification("00 00 00 10", "44 40 60 00 00", "00"));
    }

    @Test
    void everyChangeOfOneStepIsToldWhateverItsRounding() {
        rig.plant.good("fuel", 0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 67", "3E 91 00 3F");
        subscribe("00 00 00 0A");
        for (int step = 1; step <= 1000; step++) {
            double value = BigDecimal.valueOf(step, 1).doubleValue();
            rig.plant.good("fuel", value);
            String real = String.format(Locale.ROOT, "%08X", Float.floatToIntBits((float) value))
                    .replaceAll("(..)(?!$)", "$1 ");
            assertThat(heard()).isEqualTo(notification("00 00 00 0A", "44 " + real, "00"));
        }
    }

    @Test
    void aConfirmedNotificationIsRepeatedUntilItIsAcknowledged() {
        rig.plant.good("fuel", 65.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 82 00 00");
        rig.station.send("00 02 0F 05 09 12 1C 00 00 00 0A 29 01 39 3C");
        String first = rig.station.hearApplication();
        String notification = first.equals("20 0F 05") ? rig.station.hearApplication() : first;
        assertThat(withoutTimeLeft(notification))
                .matches("00 05 .. 01 09 12 1C 02 00 00 03 2C 00 00 00 0A 39 xx 4E"
                        + " 09 55 2E 44 42 82 00 00 2F 09 6F 2E 82 04 00 2F 4F");
        String invokeId = notification.substring(6, 8);
        rig.station.send("20 " + invokeId + " 01");
        rig.plant.good("fuel", 66.0);
        String next = rig.station.hearApplication();
        assertThat(next).contains("44 42 84 00 00");
        assertThat(next.substring(6, 8)).isNotEqualTo(invokeId);
    }

    @Test
    void aCancelledSubscriptionIsToldNothingMore() {
        rig.plant.good("fuel", 65.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 82 00 00");
        subscribe("00 00 00 0A");
        assertThat(rig.station.ask("00 02 10 05 09 12 1C 00 00 00 0A")).isEqualTo("20 10 05");
        rig.plant.good("fuel", 80.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 A0 00 00");
        assertThat(rig.station.hear(200)).isEmpty();
    }

    @Test
    void theDeviceListsItsSubscriptions() {
        subscribe("00 00 00 0A");
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 98"))
                .matches("30 01 0C 0C 02 00 00 03 19 98 3E 0E 0E 1E 21 00 65 06 7F 00 00 01 .. .. 1F 0F 19 12 0F"
                        + " 1E 0C 00 00 00 0A 19 55 1F 29 00 39 .. (4C .. .. .. .. )?3F");
    }

    @Test
    void whatHasNoChangeOfValueCannotBeSubscribedTo() {
        assertThat(rig.station.ask("00 02 0F 05 09 12 1C 02 00 00 03 29 00 39 3C"))
                .startsWith("50 0F 05 91 01 91");
        assertThat(rig.station.ask("00 02 0F 05 09 12 1C 00 00 00 63 29 00 39 3C"))
                .isEqualTo("50 0F 05 91 01 91 1F");
    }

    @Test
    void aSubscriberBehindARouterIsToldThroughIt() {
        rig.plant.good("fuel", 65.0);
        shows("fuel", "00 04 01 0C 0C 00 00 00 0A 19 55", "44 42 82 00 00");
        rig.station.sendNetwork(Hex.bytes("01 0C 00 07 01 22 00 02 0F 05 09 12 1C 00 00 00 0A 29 00 39 3C"));
        String first = rig.station.hear(Station.PATIENCE_MILLIS).orElseThrow();
        String second = rig.station.hear(Station.PATIENCE_MILLIS).orElseThrow();
        assertThat(first.substring(12)).startsWith("01 20 00 07 01 22 FF ");
        assertThat(second.substring(12)).startsWith("01 20 00 07 01 22 FF ");
        rig.plant.good("fuel", 80.0);
        assertThat(rig.station.hear(Station.PATIENCE_MILLIS).orElseThrow().substring(12))
                .startsWith("01 20 00 07 01 22 FF 10 02 09 12 1C 02 00 00 03 2C 00 00 00 0A");
    }
}
