package burnerbridge.bacnet;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Every service of ASHRAE 135-2020, clause 21 (BACnetConfirmedServiceChoice, BACnetUnconfirmedServiceChoice), those
 * that were taken out again included, each with a request that keeps to its production; numbers and hex from
 * memory, the numbers compared with an independent table in {@code OutsideClientIT}.
 *
 * @param name as the statement of conformance writes it
 * @param data what follows the number of the service
 */
public record EveryService(boolean confirmed, int choice, String name, String data) {

    private static final List<EveryService> ALL = List.of(
            confirmed(0, "AcknowledgeAlarm", "09 01 1C 00 00 00 05 29 03 3E 19 01 3F 4D 02 00 41 5E 19 01 5F"),
            confirmed(1, "ConfirmedCOVNotification", notification()),
            confirmed(
                    2,
                    "ConfirmedEventNotification",
                    "09 01 1C 02 00 00 04 2C 00 00 00 05 3E 19 10 3F 49 04 59 64 69 05 89 00 99 01 A9 00 B9 03"),
            confirmed(3, "GetAlarmSummary", ""),
            confirmed(4, "GetEnrollmentSummary", "09 00"),
            confirmed(5, "SubscribeCOV", "09 12 1C 00 00 00 0A 29 00 39 3C"),
            confirmed(6, "AtomicReadFile", "C4 02 80 00 01 0E 31 00 21 1B 0F"),
            confirmed(7, "AtomicWriteFile", "C4 02 80 00 01 0E 31 1E 62 01 02 0F"),
            confirmed(8, "AddListElement", "0C 02 00 00 03 19 98 3E 21 01 3F"),
            confirmed(9, "RemoveListElement", "0C 02 00 00 03 19 98 3E 21 01 3F"),
            confirmed(10, "CreateObject", "0E 09 00 0F"),
            confirmed(11, "DeleteObject", "C4 00 00 00 05"),
            confirmed(12, "ReadProperty", "0C 00 00 00 05 19 55"),
            confirmed(13, "ReadPropertyConditional", "0E 09 02 0F"),
            confirmed(14, "ReadPropertyMultiple", "0C 00 00 00 10 1E 09 55 09 67 1F"),
            confirmed(15, "WriteProperty", "0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 08"),
            confirmed(16, "WritePropertyMultiple", "0C 00 00 00 05 1E 09 55 2E 44 42 86 00 00 2F 39 08 1F"),
            confirmed(17, "DeviceCommunicationControl", "09 05 19 01"),
            confirmed(18, "ConfirmedPrivateTransfer", "09 19 19 08 2E 44 42 90 CC CD 2F"),
            confirmed(19, "ConfirmedTextMessage", "0C 02 00 00 05 29 00 3D 02 00 41"),
            confirmed(20, "ReinitializeDevice", "09 01"),
            confirmed(21, "VT-Open", "91 01 21 05"),
            confirmed(22, "VT-Close", "21 1D"),
            confirmed(23, "VT-Data", "21 05 61 41 21 00"),
            confirmed(24, "Authenticate", "0A 12 34"),
            confirmed(25, "RequestKey", "C4 02 00 00 04 61 01 C4 02 00 00 05 61 02"),
            confirmed(26, "ReadRange", "0C 02 00 00 03 19 98"),
            confirmed(27, "LifeSafetyOperation", "09 12 1D 04 00 4D 44 4C 29 04 3C 05 40 00 01"),
            confirmed(28, "SubscribeCOVProperty", "09 12 1C 00 00 00 0A 29 00 39 3C 4E 09 55 4F"),
            confirmed(29, "GetEventInformation", ""),
            confirmed(30, "SubscribeCOVPropertyMultiple", "09 12 19 00 29 3C 4E 0C 00 00 00 0A 1E 0E 09 55 0F 1F 4F"),
            confirmed(31, "ConfirmedCOVNotificationMultiple", "09 12 1C 02 00 00 04 29 05 4E 4F"),
            confirmed(32, "ConfirmedAuditNotification", "0E 0F"),
            confirmed(33, "AuditLogQuery", "0C 0F 40 00 01 1E 1F 39 01"),
            confirmed(34, "AuthRequest", ""),
            unconfirmed(0, "I-Am", "C4 02 00 00 09 22 05 C4 91 03 21 63"),
            unconfirmed(1, "I-Have", "C4 02 00 00 09 C4 00 00 00 05 75 02 00 41"),
            unconfirmed(2, "UnconfirmedCOVNotification", notification()),
            unconfirmed(
                    3,
                    "UnconfirmedEventNotification",
                    "09 01 1C 02 00 00 09 2C 00 00 00 02 3E 19 10 3F 49 04 59 64 69 05 89 00 99 01 A9 00 B9 03"),
            unconfirmed(4, "UnconfirmedPrivateTransfer", "09 19 19 08 2E 44 42 90 CC CD 2F"),
            unconfirmed(5, "UnconfirmedTextMessage", "0C 02 00 00 05 29 00 3D 02 00 41"),
            unconfirmed(6, "TimeSynchronization", "A4 7E 0B 19 03 B4 00 00 00 00"),
            unconfirmed(7, "Who-Has", "2C 00 00 00 05"),
            unconfirmed(8, "Who-Is", "09 03 19 03"),
            unconfirmed(9, "UTCTimeSynchronization", "A4 7E 0B 19 03 B4 00 00 00 00"),
            unconfirmed(10, "WriteGroup", "09 01 19 08 2E 09 01 2C 42 00 00 00 2F"),
            unconfirmed(11, "UnconfirmedCOVNotificationMultiple", "09 12 1C 02 00 00 04 29 05 4E 4F"),
            unconfirmed(12, "UnconfirmedAuditNotification", "0E 0F"),
            unconfirmed(13, "Who-Am-I", "21 63 75 02 00 41 75 02 00 42"),
            unconfirmed(14, "You-Are", "21 63 75 02 00 41 75 02 00 42 C4 02 00 00 09"));

    private static EveryService confirmed(int choice, String name, String data) {
        return new EveryService(true, choice, name, data);
    }

    private static EveryService unconfirmed(int choice, String name, String data) {
        return new EveryService(false, choice, name, data);
    }

    private static String notification() {
        return "09 12 1C 02 00 00 04 2C 00 00 00 0A 39 00 4E 09 55 2E 44 42 82 00 00 2F 09 6F 2E 82 04 00 2F 4F";
    }

    public static List<EveryService> all() {
        return ALL;
    }

    /** The one of a number; empty for a number that the standard has not given. */
    static Optional<EveryService> of(boolean confirmed, int choice) {
        return ALL.stream()
                .filter(service -> service.confirmed == confirmed && service.choice == choice)
                .findFirst();
    }

    /** The whole application layer's part; invoke id 7, no segments taken, up to 1476 octets. */
    static String request(boolean confirmed, int choice) {
        String data = of(confirmed, choice).map(EveryService::data).orElse("");
        return String.format(Locale.ROOT, confirmed ? "00 05 07 %02X %s" : "10 %02X %s", choice, data)
                .strip();
    }
}
