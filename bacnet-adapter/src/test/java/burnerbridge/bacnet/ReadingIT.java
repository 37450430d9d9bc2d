package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.model.BitValue;
import burnerbridge.model.StateValue;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Requests of ASHRAE 135 Annex F over a real socket; hex from memory of that text. */
final class ReadingIT {
    private final Rig rig = new Rig();

    @AfterEach
    void close() {
        rig.close();
    }

    private void awaitReply(String request, String reply) {
        await().untilAsserted(() -> assertThat(rig.station.ask(request)).isEqualTo(reply));
    }

    @Test
    void readPropertyGetsTheStandardsReply() {
        rig.plant.good("flue-temperature", 72.3);
        awaitReply("00 04 01 0C 0C 00 00 00 05 19 55", "30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F");
    }

    @Test
    void readPropertyMultipleGetsTheStandardsReply() {
        rig.plant.good("oxygen", 72.3);
        awaitReply(
                "00 04 F1 0E 0C 00 00 00 10 1E 09 55 09 67 1F",
                "30 F1 0E 0C 00 00 00 10 1E 29 55 4E 44 42 90 99 9A 4F 29 67 4E 91 00 4F 1F");
    }

    @Test
    void readPropertyMultipleAnswersEachReferenceForItself() {
        rig.plant.good("flue-temperature", 42.3);
        awaitReply(
                "00 04 02 0E 0C 00 00 00 05 1E 09 55 09 56 1F 0C 00 00 00 32 1E 09 55 1F",
                "30 02 0E 0C 00 00 00 05 1E 29 55 4E 44 42 29 33 33 4F 29 56 5E 91 02 91 20 5F 1F"
                        + " 0C 00 00 00 32 1E 29 55 5E 91 01 91 1F 5F 1F");
    }

    @Test
    void aStaleAndABadValueSayWhy() {
        rig.plant.good("fuel", 10);
        rig.plant.not("fuel", burnerbridge.model.Reason.LINE_DOWN);
        rig.plant.not("oxygen", burnerbridge.model.Reason.NO_SENSOR);
        awaitReply(
                "00 04 01 0E 0C 00 00 00 0A 1E 09 55 09 67 09 6F 1F 0C 00 00 00 10 1E 09 67 09 6F 1F",
                "30 01 0E 0C 00 00 00 0A 1E 29 55 4E 44 41 20 00 00 4F 29 67 4E 91 0C 4F 29 6F 4E 82 04 40 4F 1F"
                        + " 0C 00 00 00 10 1E 29 67 4E 91 01 4F 29 6F 4E 82 04 40 4F 1F");
    }

    @Test
    void bitsAndStatesAreServedWithTheirTexts() {
        rig.plant.good("flame", new BitValue(true));
        rig.plant.good("phase", new StateValue(20, "purge"));
        awaitReply(
                "00 04 01 0E 0C 00 C0 00 12 1E 09 55 09 04 09 2E 1F 0C 03 40 00 14 1E 09 55 09 4A 09 6E 19 03 1F",
                "30 01 0E 0C 00 C0 00 12 1E 29 55 4E 91 01 4F 29 04 4E 73 00 6F 6E 4F"
                        + " 29 2E 4E 74 00 6F 66 66 4F 1F"
                        + " 0C 03 40 00 14 1E 29 55 4E 21 02 4F 29 4A 4E 21 05 4F"
                        + " 29 6E 39 03 4E 75 09 00 69 67 6E 69 74 69 6F 6E 4F 1F");
    }

    @Test
    void namesUnitsAndIncrementsAreServed() {
        assertThat(rig.station.ask("00 04 01 0E 0C 00 00 00 10 1E 09 4D 09 75 09 16 09 51 1F"))
                .isEqualTo(
                        "30 01 0E 0C 00 00 00 10 1E 29 4D 4E 75 10 00 62 6F 69 6C 65 72 2D 31 2E 6F 78 79 67 65 6E 4F"
                                + " 29 75 4E 91 3E 4F 29 16 4E 44 3F 00 00 00 4F 29 51 4E 10 4F 1F");
    }

    @Test
    void anObjectOfThePropertiesAllHasNothingThatCanBeChangedOrIsNotTrue() {
        String all = rig.station.ask("02 75 01 0E 0C 00 00 00 05 1E 09 08 1F");
        assertThat(propertiesIn(all)).containsExactlyInAnyOrder(22, 28, 36, 75, 77, 79, 81, 85, 103, 111, 117);
        String device = rig.station.ask("02 75 01 0E 0C 02 00 00 03 1E 09 08 1F");
        assertThat(propertiesIn(device))
                .containsExactlyInAnyOrder(
                        10, 11, 12, 24, 28, 30, 44, 56, 57, 62, 70, 73, 75, 76, 77, 79, 96, 97, 98, 107, 112, 119, 120,
                        121, 139, 152, 155, 167);
    }

    /** The property numbers of the results of a reply about one object. */
    private static java.util.List<Integer> propertiesIn(String reply) {
        java.util.List<Integer> found = new java.util.ArrayList<>();
        String[] octets =
                reply.substring("30 01 0E 0C 00 00 00 05 1E ".length()).split(" ", -1);
        int depth = 0;
        for (int i = 0; i < octets.length - 1; ) {
            int tag = Integer.parseInt(octets[i], 16);
            int length = tag & 7;
            boolean context = (tag & 8) != 0;
            if (context && length == 6) {
                depth++;
                length = 0;
            } else if (context && length == 7) {
                depth--;
                length = 0;
            } else if (!context && tag >> 4 == 1) {
                length = 0;
            } else if (length == 5) {
                length = Integer.parseInt(octets[++i], 16);
            }
            if (depth == 0 && tag >> 4 == 2 && context && (tag & 7) < 6) {
                found.add(Integer.parseInt(octets[i + 1], 16));
            }
            i += 1 + length;
        }
        return found;
    }

    @Test
    void theDeviceSaysWhatItIs() {
        assertThat(rig.station.ask("00 05 01 0E 0C 02 00 00 03 1E 09 46 09 78 09 79 09 61 09 6B 09 3E 1F"))
                .isEqualTo("30 01 0E 0C 02 00 00 03 1E"
                        + " 29 46 4E 75 0E 00 42 75 72 6E 65 72 20 42 72 69 64 67 65 4F"
                        + " 29 78 4E 21 63 4F"
                        + " 29 79 4E 75 0D 00 6E 6F 74 20 61 73 73 69 67 6E 65 64 4F"
                        + " 29 61 4E 85 07 04 04 0A 00 00 72 00 4F"
                        + " 29 6B 4E 91 00 4F"
                        + " 29 3E 4E 22 05 C4 4F 1F");
    }

    @Test
    void anyDeviceIsThisDevice() {
        assertThat(rig.station.ask("00 05 01 0C 0C 02 3F FF FF 19 4B"))
                .isEqualTo("30 01 0C 0C 02 00 00 03 19 4B 3E C4 02 00 00 03 3F");
    }

    @Test
    void whatIsNotThereIsAnError() {
        assertThat(rig.station.ask("00 05 01 0C 0C 00 00 00 06 19 55")).isEqualTo("50 01 0C 91 01 91 1F");
        assertThat(rig.station.ask("00 05 01 0C 0C 00 00 00 05 19 57")).isEqualTo("50 01 0C 91 02 91 20");
        assertThat(rig.station.ask("00 05 01 0C 0C 00 00 00 05 19 55 29 01")).isEqualTo("50 01 0C 91 02 91 32");
        assertThat(rig.station.ask("00 05 01 0C 0C 03 40 00 14 19 6E 29 06")).isEqualTo("50 01 0C 91 02 91 2A");
        assertThat(rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 CC")).isEqualTo("50 01 0C 91 02 91 20");
    }

    @Test
    void aQuestionFromBehindARouterIsAnsweredThroughIt() {
        rig.plant.good("flue-temperature", 72.3);
        awaitReply("00 04 01 0C 0C 00 00 00 05 19 55", "30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F");
        rig.station.sendNetwork(
                burnerbridge.bacnet.edge.coding.Hex.bytes("01 0C 00 07 01 22 00 04 01 0C 0C 00 00 00 05 19 55"));
        assertThat(rig.station.hear(Station.PATIENCE_MILLIS))
                .hasValue("81 0A 00 1C 01 20 00 07 01 22 FF 30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F");
    }

    @Test
    void aReplyThatIsTooLongForItsAskerIsAbortedUnlessItTakesSegments() {
        String list = "0C 02 00 00 03 19 4C";
        assertThat(rig.station.ask("00 00 07 0C " + list)).isEqualTo("71 07 04");
        assertThat(rig.station.ask("02 10 07 0C " + list)).isEqualTo("71 07 01");
        String whole = rig.station.ask("00 05 07 0C " + list);
        assertThat(inSegments("02 70 07 0C " + list)).isEqualTo(whole.substring("30 07 0C ".length()));
    }

    /** Takes a reply segment by segment (ASHRAE 135, 5.4), each window as long as it was proposed. */
    private String inSegments(String request) {
        StringBuilder data = new StringBuilder();
        String segment = rig.station.ask(request);
        for (int next = 0; ; next++) {
            int first = Integer.parseInt(segment.substring(0, 2), 16);
            assertThat(first & 0xF8).isEqualTo(0x38);
            assertThat(segment.length()).isLessThanOrEqualTo(50 * 3);
            assertThat(Integer.parseInt(segment.substring(6, 8), 16)).isEqualTo(next);
            data.append(segment.substring("3C 07 00 05 0C".length()));
            if ((first & 4) == 0) {
                rig.station.send(String.format(Locale.ROOT, "40 07 %02X 01", next));
                return data.substring(1);
            }
            segment = rig.station.ask(String.format(Locale.ROOT, "40 07 %02X 01", next));
        }
    }
}
