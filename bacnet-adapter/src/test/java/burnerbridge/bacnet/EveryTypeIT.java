package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.model.Reason;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.table.ControllerLink;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every type of object by octets put together by hand: read, subscribed to, and faulty. */
final class EveryTypeIT {
    private static final String ANSWERS = "00 C0 00 00";

    private final Rig rig = new Rig(
            EveryType.plant(new RunningClock(), ZoneId.of("America/St_Johns")),
            BacnetOptions.USUAL.withLimits(100_000, 500));

    @AfterEach
    void close() {
        rig.close();
    }

    private static String hex(int object) {
        return String.format(
                Locale.ROOT,
                "%02X %02X %02X %02X",
                object >>> 24,
                object >> 16 & 0xFF,
                object >> 8 & 0xFF,
                object & 0xFF);
    }

    private void awaitValue(String object, String octets) {
        String request = "00 04 01 0C 0C " + object + " 19 55";
        String reply = "30 01 0C 0C " + object + " 19 55 3E " + octets + " 3F";
        await().untilAsserted(() -> assertThat(rig.station.ask(request)).isEqualTo(reply));
    }

    private void start(EveryType type) {
        rig.plant.good(type.point(), type.first);
        awaitValue(hex(type.object()), type.firstOctets());
    }

    @ParameterizedTest
    @EnumSource(EveryType.class)
    void itsPresentValueIsRead(EveryType type) {
        start(type);
        rig.plant.good(type.point(), type.second);
        awaitValue(hex(type.object()), type.secondOctets());
    }

    @ParameterizedTest
    @EnumSource(EveryType.class)
    void itIsSubscribedToAndToldOfValueAndFlags(EveryType type) {
        start(type);
        rig.station.send("00 02 0F 05 09 12 1C " + hex(type.object()) + " 29 00 39 3C");
        assertThat(rig.station.hearApplication()).isEqualTo("20 0F 05");
        assertThat(heard()).isEqualTo(notification(type, type.firstOctets(), "00"));
        rig.plant.good(type.point(), type.second);
        assertThat(heard()).isEqualTo(notification(type, type.secondOctets(), "00"));
        rig.plant.not(type.point(), Reason.LINE_DOWN);
        assertThat(heard()).isEqualTo(notification(type, type.secondOctets(), "40"));
    }

    @ParameterizedTest
    @EnumSource(EveryType.class)
    void itsPropertiesAreSubscribedToOneByOne(EveryType type) {
        start(type);
        for (String property : List.of("55", "6F", "67")) {
            rig.station.send("00 02 0F 1C 09 12 1C " + hex(type.object()) + " 29 00 39 3C 4E 09 " + property + " 4F");
            assertThat(rig.station.hearApplication()).isEqualTo("20 0F 1C");
            rig.station.hearApplication();
        }
        rig.plant.not(type.point(), Reason.LINE_DOWN);
        List<String> heard = List.of(heard(), heard(), heard());
        assertThat(heard)
                .containsOnlyOnce(notification(type, type.firstOctets(), "40")
                        .replace("xx 4E 09 55", "xx 4E 09 67")
                        .replace("2E " + type.firstOctets() + " 2F", "2E 91 0C 2F"));
        assertThat(heard)
                .filteredOn(n -> n.equals(notification(type, type.firstOctets(), "40")))
                .hasSize(2);
        rig.station.send("00 02 0F 1C 09 12 1C " + hex(type.object()) + " 4E 09 55 4F");
        assertThat(rig.station.hearApplication()).isEqualTo("20 0F 1C");
    }

    @ParameterizedTest
    @EnumSource(EveryType.class)
    void aConfirmedSubscriptionIsTold(EveryType type) {
        start(type);
        rig.station.send("00 02 0F 05 09 12 1C " + hex(type.object()) + " 29 01 39 3C");
        assertThat(rig.station.hearApplication()).isEqualTo("20 0F 05");
        String first = rig.station.hearApplication();
        assertThat(first).matches("00 05 .. 01 .*").contains("2E " + type.firstOctets() + " 2F");
        rig.station.send("20 " + first.substring(6, 8) + " 01");
        rig.plant.good(type.point(), type.second);
        assertThat(rig.station.hearApplication()).contains("2E " + type.secondOctets() + " 2F");
    }

    private String heard() {
        return rig.station.hearApplication().replaceFirst(" 39 .. 4E", " 39 xx 4E");
    }

    private static String notification(EveryType type, String value, String flags) {
        return "10 02 09 12 1C 02 00 00 03 2C " + hex(type.object()) + " 39 xx 4E 09 55 2E " + value
                + " 2F 09 6F 2E 82 04 " + flags + " 2F 4F";
    }

    @ParameterizedTest
    @EnumSource(EveryType.class)
    void allItsPropertiesAreThoseOfItsListAndRequiredAndOptionalShareThem(EveryType type) {
        List<Integer> all = properties(type.object(), 8);
        List<Integer> shared = new ArrayList<>(properties(type.object(), 105));
        shared.addAll(properties(type.object(), 80));
        assertThat(shared).containsExactlyInAnyOrderElementsOf(all);
        assertThat(all).contains(75, 77, 79, 85, 111, 36).doesNotHaveDuplicates();
        String list = rig.station.ask("02 75 01 0C 0C " + hex(type.object()) + " 1A 01 73");
        byte[] listed = Hex.bytes(list);
        List<Integer> named = new ArrayList<>(List.of(75, 77, 79));
        for (int i = 13; i + 1 < listed.length; i += 2) {
            named.add(listed[i] & 0xFF);
        }
        assertThat(named).containsExactlyInAnyOrderElementsOf(all);
    }

    /** The property numbers of a reply to ReadPropertyMultiple; each must hold a value. */
    private List<Integer> properties(int object, int special) {
        byte[] reply = Hex.bytes(
                rig.station.ask(String.format(Locale.ROOT, "02 75 01 0E 0C %s 1E 09 %02X 1F", hex(object), special)));
        List<Integer> found = new ArrayList<>();
        int depth = 0;
        for (int at = 9; at < reply.length - 1; ) {
            int tag = reply[at] & 0xFF;
            int kind = tag & 7;
            boolean context = (tag & 8) != 0;
            int length = kind;
            int header = 1;
            if (context && kind >= 6) {
                depth += kind == 6 ? 1 : -1;
                assertThat(tag >> 4).isNotEqualTo(5);
                length = 0;
            } else if (!context && tag >> 4 == 1) {
                length = 0;
            } else if (kind == 5) {
                length = reply[at + 1] & 0xFF;
                header = 2;
            }
            if (depth == 0 && context && tag >> 4 == 2) {
                found.add(reply[at + 1] & 0xFF);
            }
            at += header + length;
        }
        return found;
    }

    @Test
    void anAccumulatorSaysWhatItCountsIn() {
        assertThat(rig.station.ask(
                        "00 05 01 0E 0C " + hex(EveryType.ACCUMULATOR.object()) + " 1E 09 BB 09 41 09 75 1F"))
                .isEqualTo("30 01 0E 0C " + hex(EveryType.ACCUMULATOR.object()) + " 1E 29 BB 4E 19 FF 4F"
                        + " 29 41 4E 24 FF FF FF FF 4F 29 75 4E 91 50 4F 1F");
    }

    @Test
    void incrementsHaveTheTypeOfTheirObject() {
        assertThat(increment(EveryType.ANALOG_VALUE)).isEqualTo("44 3F 00 00 00");
        assertThat(increment(EveryType.LARGE_ANALOG_VALUE)).isEqualTo("55 08 3F E0 00 00 00 00 00 00");
        assertThat(increment(EveryType.INTEGER_VALUE)).isEqualTo("21 01");
        assertThat(increment(EveryType.POSITIVE_INTEGER_VALUE)).isEqualTo("21 01");
    }

    private String increment(EveryType type) {
        String reply = rig.station.ask("00 05 01 0C 0C " + hex(type.object()) + " 19 16");
        return reply.substring(reply.indexOf("3E ") + 3, reply.length() - 3);
    }

    @Test
    void aPulledCableIsOneChangeOfTheObjectThatTellsIt() {
        for (EveryType type : EveryType.values()) {
            start(type);
        }
        rig.plant.answers(ControllerLink.up(rig.plant.now()));
        awaitValue(ANSWERS, "91 01");
        rig.station.send("00 02 0F 05 09 12 1C " + ANSWERS + " 29 00 39 3C");
        assertThat(rig.station.hearApplication()).isEqualTo("20 0F 05");
        assertThat(rig.station.hearApplication()).endsWith("2E 91 01 2F 09 6F 2E 82 04 00 2F 4F");
        for (EveryType type : EveryType.values()) {
            rig.plant.not(type.point(), Reason.NO_REPLY);
        }
        rig.plant.answers(ControllerLink.down(ControllerLink.Cause.NO_REPLY, "three requests", rig.plant.now()));
        assertThat(rig.station.hearApplication()).endsWith("2E 91 00 2F 09 6F 2E 82 04 00 2F 4F");
        assertThat(rig.station.hear(200)).isEmpty();
        for (EveryType type : EveryType.values()) {
            assertThat(rig.station.ask("00 05 01 0C 0C " + hex(type.object()) + " 19 6F"))
                    .endsWith("3E 82 04 40 3F");
            assertThat(rig.station.ask("00 05 01 0C 0C " + hex(type.object()) + " 19 24"))
                    .endsWith("3E 91 00 3F");
        }
        rig.plant.answers(ControllerLink.up(rig.plant.now()));
        assertThat(rig.station.hearApplication()).endsWith("2E 91 01 2F 09 6F 2E 82 04 00 2F 4F");
    }

    @Test
    void nobodyKnowsWhetherAControllerAnswersThatWasNotAsked() {
        assertThat(rig.station.ask("00 05 01 0E 0C 00 C0 03 E8 1E 09 55 09 67 09 6F 1F"))
                .isEqualTo("30 01 0E 0C 00 C0 03 E8 1E 29 55 4E 91 00 4F 29 67 4E 91 07 4F 29 6F 4E 82 04 40 4F 1F");
    }

    @Test
    void aStructuredViewHoldsAllObjectsOfItsController() {
        String list = rig.station.ask("02 75 01 0C 0C 07 40 00 00 19 D3");
        StringBuilder expected = new StringBuilder("30 01 0C 0C 07 40 00 00 19 D3 3E 1C " + ANSWERS);
        for (EveryType type : EveryType.values()) {
            expected.append(" 1C ").append(hex(type.object()));
        }
        assertThat(list).isEqualTo(expected + " 3F");
        assertThat(rig.station.ask("00 05 01 0C 0C 07 40 00 00 19 D0")).endsWith("3E 91 06 3F"); // equipment
        assertThat(rig.station.ask("00 05 0F 05 09 12 1C 07 40 00 00 29 00 39 3C"))
                .isEqualTo("50 0F 05 91 01 91 2D");
    }

    @Test
    void theTimeIsThatOfTheSite() {
        // St. John's is three and a half hours behind universal time: 210 minutes, positive to the west.
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 77")).endsWith("3E 32 00 D2 3F");
        LocalDate today = LocalDate.now(ZoneId.of("America/St_Johns"));
        String date = String.format(
                Locale.ROOT,
                "A4 %02X %02X %02X %02X",
                today.getYear() - 1900,
                today.getMonthValue(),
                today.getDayOfMonth(),
                today.getDayOfWeek().getValue());
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 38")).endsWith("3E " + date + " 3F");
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 39")).matches("30 .* 3E B4 .. .. .. .. 3F");
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 18")).matches("30 .* 3E 1[01] 3F");
    }

    @ParameterizedTest
    @ValueSource(strings = {"4C", "0C", "61"})
    void aRangeOfWhatIsNoListIsAnError(String property) {
        String reply = rig.station.ask("00 05 01 1A 0C 02 00 00 03 19 " + property);
        assertThat(reply).isIn("50 01 1A 91 05 91 16", "50 01 1A 91 02 91 20");
    }

    @Test
    void theListOfSubscriptionsIsReadInRanges() {
        for (EveryType type : EveryType.values()) {
            rig.station.send("00 02 0F 05 09 12 1C " + hex(type.object()) + " 29 00 39 3C");
            rig.station.hearApplication();
            rig.station.hearApplication();
        }
        assertThat(rig.station.ask("00 05 01 1A 0C 02 00 00 03 19 98 3E 21 01 31 02 3F"))
                .startsWith("30 01 1A 0C 02 00 00 03 19 98 3A 05 80 49 02 5E 0E");
        assertThat(rig.station.ask("00 05 01 1A 0C 02 00 00 03 19 98 3E 21 0C 31 FE 3F"))
                .startsWith("30 01 1A 0C 02 00 00 03 19 98 3A 05 40 49 02 5E 0E");
        assertThat(rig.station.ask("00 05 01 1A 0C 02 00 00 03 19 98 3E 21 63 31 02 3F"))
                .isEqualTo("30 01 1A 0C 02 00 00 03 19 98 3A 05 00 49 00 5E 5F");
        // One who takes 128 octets and no segments has the first items, and hears that there are more.
        String short1 = rig.station.ask("00 01 01 1A 0C 02 00 00 03 19 98");
        assertThat(short1).startsWith("30 01 1A 0C 02 00 00 03 19 98 3A 05 A0 49 0");
        assertThat(Hex.bytes(short1)).hasSizeLessThanOrEqualTo(128);
        assertThat(rig.station.ask("00 05 01 1A 0C 02 00 00 03 19 98 6E 21 01 31 02 6F"))
                .isEqualTo("50 01 1A 91 02 91 8C");
    }

    @Test
    void aRequestInSegmentsIsAnsweredAsIfItWereWhole() {
        start(EveryType.ANALOG_INPUT);
        String whole = "0C 00 00 00 01 1E 09 55 09 6F 1F";
        byte[] data = Hex.bytes(whole);
        String expected = rig.station.ask("02 75 07 0E " + whole);
        for (int i = 0; i < data.length; i++) {
            boolean last = i == data.length - 1;
            rig.station.send(
                    String.format(Locale.ROOT, "%02X 75 07 %02X 01 0E %02X", last ? 0x0A : 0x0E, i, data[i] & 0xFF));
            assertThat(rig.station.hearApplication()).isEqualTo(String.format(Locale.ROOT, "41 07 %02X 01", i));
        }
        assertThat(rig.station.hearApplication()).isEqualTo(expected);
    }
}
