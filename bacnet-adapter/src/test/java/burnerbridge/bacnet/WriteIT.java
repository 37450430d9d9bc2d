package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Nothing can be written, by any service, and each refusal is the one that the standard has. */
final class WriteIT {
    private static final String UNKNOWN_PROPERTY = "91 02 91 20";
    private static final String NOT_AN_ARRAY = "91 02 91 32";
    private static final String DENIED = "91 02 91 28";

    private final Rig rig = new Rig();

    WriteIT() {
        rig.plant.good("flue-temperature", 72.3);
    }

    @AfterEach
    void close() {
        rig.close();
    }

    private static List<Integer> properties() {
        List<Integer> properties = new ArrayList<>();
        for (int property = 0; property <= 512; property++) {
            properties.add(property);
        }
        properties.addAll(List.of(513, 1000, 0x10000, 0x3FFFFF));
        return properties;
    }

    /** What a write of a property must be answered with, found out by reading it. */
    private String errorOf(int object, int property, boolean indexed) {
        String read = rig.station.ask(Rig.readProperty(object, property));
        boolean special = property == 8 || property == 80 || property == 105;
        if (special || read.equals("50 01 0C " + UNKNOWN_PROPERTY)) {
            return UNKNOWN_PROPERTY;
        }
        assertThat(read).startsWith("30 01 0C");
        boolean array =
                rig.station.ask(Rig.readProperty(object, property) + " 29 00").startsWith("30");
        return indexed && !array ? NOT_AN_ARRAY : DENIED;
    }

    private static String spaced(String hex) {
        return hex.replace(" ", "").replaceAll("(..)(?!$)", "$1 ");
    }

    @Test
    void aWriteToEveryPropertyOfEveryObjectIsRefusedAndChangesNothing() {
        Map<String, String> before = rig.everything();
        assertThat(before).hasSizeGreaterThan(150);
        int denied = 0;
        for (int object : Rig.objects()) {
            for (int property : properties()) {
                for (boolean indexed : new boolean[] {false, true}) {
                    String error = errorOf(object, property, indexed);
                    denied += error.equals(DENIED) ? 1 : 0;
                    for (boolean prioritised : new boolean[] {false, true}) {
                        writeOne(object, property, indexed, prioritised, error);
                        writeSeveral(object, property, indexed, prioritised, error);
                    }
                }
            }
        }
        assertThat(denied).isGreaterThan(150);
        assertThat(rig.everything()).isEqualTo(before);
    }

    private void writeOne(int object, int property, boolean indexed, boolean prioritised, String error) {
        String request = String.format(
                Locale.ROOT,
                "00 04 59 0F 0C %08X %s %s 3E 44 43 34 00 00 3F %s",
                object,
                Rig.propertyTag(1, property),
                indexed ? "29 01" : "",
                prioritised ? "49 08" : "");
        assertThat(rig.station.ask(request)).isEqualTo("50 59 0F " + error);
    }

    private void writeSeveral(int object, int property, boolean indexed, boolean prioritised, String error) {
        String request = String.format(
                Locale.ROOT,
                "00 04 59 10 0C %08X 1E %s %s 2E 44 43 34 00 00 2F %s 1F",
                object,
                Rig.propertyTag(0, property),
                indexed ? "19 01" : "",
                prioritised ? "39 08" : "");
        String where = String.format(
                Locale.ROOT, "0F 1E 0C %08X %s %s 1F", object, Rig.propertyTag(1, property), indexed ? "29 01" : "");
        assertThat(rig.station.ask(request)).isEqualTo(spaced("50 59 10 0E " + error + where));
    }

    @Test
    void aWriteToAnObjectThatIsNotThereIsSuchAnError() {
        assertThat(rig.station.ask("00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F"))
                .isEqualTo("50 59 0F 91 01 91 1F");
    }

    @Test
    void aWriteToWhicheverDeviceIsDenied() {
        assertThat(rig.station.ask("00 04 59 0F 0C 02 3F FF FF 19 4D 3E 75 02 00 41 3F"))
                .isEqualTo("50 59 0F " + DENIED);
    }

    @Test
    void everyOtherServiceThatChangesSomethingIsRejectedAndChangesNothing() {
        Map<String, String> before = rig.everything();
        String[] requests = {
            "00 04 07 00 09 01 1C 00 00 00 05 29 02 3E 19 01 3F 4D 03 00 61 62 5E 19 01 5F", // AcknowledgeAlarm
            "00 04 07 07 C4 02 80 00 01 1E 31 00 61 02 61 62 1F", // AtomicWriteFile
            "00 04 07 08 0C 02 00 00 03 19 98 3E 00 3F", // AddListElement
            "00 04 07 09 0C 02 00 00 03 19 98 3E 00 3F", // RemoveListElement
            "00 04 07 0A 0E 09 00 0F", // CreateObject
            "00 04 07 0B C4 00 00 00 05", // DeleteObject
            "00 04 07 11 09 05 19 01", // DeviceCommunicationControl: disable for five minutes
            "00 04 07 11 19 02",
            "00 04 07 12 09 63 19 01", // ConfirmedPrivateTransfer
            "00 04 07 13 0C 02 00 00 04 29 00 3D 02 00 41", // ConfirmedTextMessage
            "00 04 07 14 09 01", // ReinitializeDevice: warm start
            "00 04 07 1B 09 01 1D 02 00 61 29 04", // LifeSafetyOperation
            "00 04 07 02 09 01", // ConfirmedEventNotification
        };
        for (String request : requests) {
            assertThat(rig.station.ask(request)).isEqualTo("60 07 09");
        }
        String[] unconfirmed = {
            "10 06 A4 7E 0B 19 03 B4 00 00 00 00", // TimeSynchronization
            "10 09 A4 7E 0B 19 03 B4 00 00 00 00", // UTCTimeSynchronization
            "10 0A 09 01 19 08 2E 09 01 2C 42 00 00 00 2F", // WriteGroup
            "10 00 C4 02 00 00 03 22 05 C4 91 03 21 63", // I-Am with our own instance
            "10 01 C4 02 00 00 09 C4 00 00 00 05 75 02 00 41", // I-Have
            "10 02 09 01 1C 02 00 00 03 2C 00 00 00 05 39 00 4E 09 55 2E 44 00 00 00 00 2F 4F",
        };
        for (String request : unconfirmed) {
            rig.station.send(request);
        }
        assertThat(rig.answers()).isTrue();
        assertThat(rig.station.hear(100)).isEmpty();
        assertThat(rig.everything()).isEqualTo(before);
    }

    @Test
    void theServicesThatTheDeviceListsAreExactlyThoseThatItAnswers() {
        String list = rig.station.ask("00 05 01 0C 0C 02 00 00 03 19 61");
        assertThat(list).isEqualTo("30 01 0C 0C 02 00 00 03 19 61 3E 85 07 04 04 0A 00 00 72 00 3F");
        List<Integer> recognised = new ArrayList<>();
        for (int service = 0; service < 64; service++) {
            String reply = rig.station.ask(String.format(Locale.ROOT, "00 05 01 %02X", service));
            if (!reply.equals("60 01 09") && service != 15 && service != 16) {
                recognised.add(service);
            }
        }
        // Bits 5, 12 and 14 above; 35 and 38 are services 26 and 28, 33 and 34 Who-Has and Who-Is.
        assertThat(recognised).containsExactly(5, 12, 14, 26, 28);
    }
}
