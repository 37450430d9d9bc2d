package burnerbridge.bacnet.edge.frame;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.FakeDirectory;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.bacnet.edge.service.WriteDoor;
import burnerbridge.model.HandClock;
import java.net.InetSocketAddress;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Application messages marked F are of ASHRAE 135 Annex F, link and network ones of Annex J and clause 6; hex
 * from memory of those texts.
 */
final class FrameJudgeTest {
    private static final InetSocketAddress PEER = new InetSocketAddress("192.0.2.7", 47808);
    private final FrameJudge judge = new FrameJudge(new FakeDirectory(), WriteDoor.NONE, new HandClock(), false);

    private Verdict link(String hex, boolean toAll) {
        return judge.judge(new Datagram(Hex.octets(hex), PEER, toAll));
    }

    private Verdict network(String npdu) {
        Octets octets = Hex.octets(npdu);
        return judge.judge(new Datagram(FrameJudge.unicast(octets), PEER, false));
    }

    private Verdict application(String apdu) {
        return network("01 04" + apdu);
    }

    private static void assertDropped(Verdict verdict, DropReason reason) {
        assertThat(verdict).isEqualTo(new Verdict.Drop(reason));
    }

    private static void assertAnswered(Verdict verdict, String apdu) {
        assertThat(verdict).isInstanceOf(Verdict.Answer.class);
        assertThat(((Verdict.Answer) verdict).datagram()).isEqualTo(FrameJudge.unicast(Hex.octets("01 00" + apdu)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "00 04 01 0C 0C 00 00 00 05 19 55", // F.3.5 ReadProperty
                "00 04 F1 0E 0C 00 00 00 10 1E 09 55 09 67 1F", // F.3.7 ReadPropertyMultiple
                "00 04 02 0E 0C 00 00 00 21 1E 09 55 1F 0C 00 00 00 32 1E 09 55 1F 0C 00 00 00 23 1E 09 55 1F", // F.3.7
                "00 02 0F 05 09 12 1C 00 00 00 0A 29 01 39 3C", // F.1.10 SubscribeCOV, with a lifetime of 60 s
                "00 02 0F 05 09 12 1C 00 00 00 0A", // its cancellation
                "00 02 0F 1C 09 12 1C 00 00 00 0A 29 01 39 3C 4E 09 55 4F 5C 3F 80 00 00", // F.1.11
                // SubscribeCOVProperty
                "00 02 0F 1C 09 12 1C 00 00 00 0A 4E 09 55 4F", // its cancellation
                "02 02 01 1A 0C 02 00 00 03 19 98", // ReadRange of a whole list
                "02 02 01 1A 0C 02 00 00 03 19 98 3E 21 01 31 0A 3F", // by position
                "02 02 01 1A 0C 05 00 00 01 19 83 7E A4 62 03 17 01 B4 13 34 36 00 31 04 7F", // F.3.8, by time
                "10 07 3D 07 00 4F 41 54 65 6D 70", // F.4.8 Who-Has by name
                "10 07 2C 00 00 00 03", // F.4.8 Who-Has by identifier
                "20 0F 01", // acknowledges a notification
                "40 01 00 05", // acknowledges segments
                "50 0F 01 91 01 91 1F",
                "60 0F 09",
                "70 0F 00",
            })
    void whatTheStandardShowsPasses(String apdu) {
        boolean first = Integer.parseInt(apdu.substring(0, 1), 16) >= 2; // what answers us
        assertThat(application(apdu)).isEqualTo(new Verdict.Pass(Hex.octets("01 04" + apdu), PEER, first));
    }

    @ParameterizedTest
    @ValueSource(strings = {"10 08", "10 08 09 03 19 03"}) // F.4.9 Who-Is, and of one device
    void aWhoIsToUsAloneIsAnsweredToItsSenderAndOneToAllPasses(String apdu) {
        assertAnswered(application(apdu), "10 00 C4 02 00 00 03 22 04 00 91 03 21 63");
        Octets toAll = Hex.octets("01 00" + apdu);
        assertThat(judge.judge(new Datagram(FrameJudge.broadcast(toAll), PEER, true)))
                .isEqualTo(new Verdict.Pass(toAll, PEER, false));
    }

    @ParameterizedTest
    @ValueSource(strings = {"10 08 09 04 19 09", "10 08 09 00 19 02", "10 07 09 04 19 09 2C 00 00 00 03"})
    void whatIsMeantForOtherDevicesIsDropped(String apdu) {
        assertDropped(application(apdu), DropReason.OTHER_DEVICE);
    }

    @Test
    void theStandardsExampleOfASubscriptionWithoutEndIsRefused() {
        assertAnswered(application("00 02 0F 05 09 12 1C 00 00 00 0A 29 01 39 00"), "50 0F 05 91 05 91 25");
    }

    @ParameterizedTest
    @CsvSource({
        "00 02 0F 05 09 12 1C 00 00 00 0A 29 01, 50 0F 05 91 05 91 25", // no lifetime
        "00 02 0F 05 09 12 1C 00 00 00 0A 29 01 3A 70 81, 50 0F 05 91 05 91 25", // 28801 s
        "00 02 0F 05 09 12 1C 00 00 00 0A 39 3C, 60 0F 05", // a lifetime for nothing
        "00 02 0F 05 1C 00 00 00 0A 29 01 39 3C, 60 0F 04", // no process
        "00 02 0F 05 09 12, 60 0F 05", // no object
        "00 02 0F 05 09 12 1C 00 00 00 0A 29 02 39 3C, 60 0F 06", // neither true nor false
        "00 04 01 0C 0C 00 00 00 05, 60 01 05",
        "00 04 01 0C, 60 01 05",
        "00 04 01 0C 0C 00 00 00 05 19 55 29 01 39 01, 60 01 07",
        "00 04 01 0C 0B 00 00 05 19 55, 60 01 03",
        "00 04 01 0C 1C 00 00 00 05 19 55, 60 01 04",
        "00 04 01 0C 0C 00 00 00 05 19 55 2C FF FF FF FF, 60 01 06",
        "00 04 01 0C 0C 00 00 00 05 1D 05 01 00 00 00 00, 60 01 03",
        "00 04 01 0C 0C 00 00 00 05 1B 40 00 00, 60 01 06", // more than 22 bits
        "00 04 01 0C 0D FF FF FF FF FA, 60 01 04",
        "00 04 01 0E, 60 01 05",
        "00 04 01 1A 0C 02 00 00 03 19 08, 60 01 02", // a range of all properties
        "00 04 01 1A 0C 02 00 00 03 19 98 29 00, 60 01 06",
        "00 04 01 1A 0C 02 00 00 03 19 98 3E 21 01 31 00 3F, 60 01 06", // a count of none
        "00 04 01 1A 0C 02 00 00 03 19 98 3E 31 01 31 01 3F, 60 01 04",
        "00 04 01 1A 0C 02 00 00 03 19 98 4E 21 01 31 01 4F, 60 01 04",
        "00 04 01 1C 09 12 1C 00 00 00 0A 29 01 39 3C, 60 01 05", // of no property
        "00 04 01 1C 09 12 1C 00 00 00 0A 29 01 39 3C 4E 09 55 4F 5C 7F C0 00 00, 60 01 06", // not a number
        "00 04 01 1C 09 12 1C 00 00 00 0A 29 01 39 3C 4E 09 55 4F 5C BF 80 00 00, 60 01 06", // less than none
        "00 04 01 1C 09 12 1C 00 00 00 0A 29 01 4E 09 55 4F, 50 01 1C 91 05 91 25", // without end
        "00 04 01 0E 0C 00 00 00 05, 60 01 05",
        "00 04 01 0E 0C 00 00 00 05 1E 1F, 60 01 05",
        "00 04 01 0E 0C 00 00 00 05 1E 09 55, 60 01 04", // not closed
        "00 04 01 0E 0C 00 00 00 05 1E 09 08 19 01 1F, 60 01 02", // an index into all properties
        "00 04 01 0E 0C 00 00 00 05 1E 09 55 1F 29 01, 60 01 04",
    })
    void badParametersAreRejectedWithTheirReason(String apdu, String answer) {
        assertAnswered(application(apdu), answer);
    }

    @ParameterizedTest
    @CsvSource({
        "00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F, 50 59 0F 91 01 91 1F", // F.3.9 WriteProperty
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F, 50 59 0F 91 02 91 28",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 08, 50 59 0F 91 02 91 28",
        "00 04 59 0F 0C 00 00 00 05 19 56 3E 44 43 34 00 00 3F, 50 59 0F 91 02 91 20",
        "00 04 59 0F 0C 00 00 00 05 19 55 29 01 3E 44 43 34 00 00 3F, 50 59 0F 91 02 91 32",
        "00 04 59 0F 0C 00 00 00 05 1A 01 73 29 01 3E 91 55 3F, 50 59 0F 91 02 91 28",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 00 3F, 50 59 0F 91 02 91 28", // null relinquishes nothing
        "00 04 59 0F 0C 00 00 00 05 19 55, 60 59 05",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 3F, 60 59 05",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00, 60 59 04",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 11, 60 59 06",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 00, 60 59 06",
        "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 08 59 01, 60 59 07",
        "00 04 59 0F 0C 00 00 03 E8 1A 02 00 3E 0D FF FF FF FF FA 3F, 60 59 04", // hangs the library
    })
    void aWriteIsRefusedWithTheErrorTheStandardHasForIt(String apdu, String answer) {
        assertAnswered(application(apdu), answer);
    }

    @ParameterizedTest
    @CsvSource({
        // F.3.10 WritePropertyMultiple: three analog values, of which we have none
        "00 04 01 10 0C 00 80 00 05 1E 09 55 2E 44 42 86 00 00 2F 1F 0C 00 80 00 06 1E 09 55 2E 44 42 86 00 00 2F 1F"
                + ", 50 01 10 0E 91 01 91 1F 0F 1E 0C 00 80 00 05 19 55 1F",
        "00 04 01 10 0C 00 00 00 05 1E 09 55 2E 44 42 86 00 00 2F 39 08 1F"
                + ", 50 01 10 0E 91 02 91 28 0F 1E 0C 00 00 00 05 19 55 1F",
        "00 04 01 10 0C 00 00 00 05 1E 0A 01 73 19 01 2E 91 55 2F 1F"
                + ", 50 01 10 0E 91 02 91 28 0F 1E 0C 00 00 00 05 1A 01 73 29 01 1F",
        "00 04 01 10 0C 00 00 00 05 1E 09 55 19 01 2E 91 55 2F 1F"
                + ", 50 01 10 0E 91 02 91 32 0F 1E 0C 00 00 00 05 19 55 29 01 1F",
        "00 04 01 10, 60 01 05",
        "00 04 01 10 0C 00 00 00 05 1E 1F, 60 01 05",
        "00 04 01 10 0C 00 00 00 05 1E 09 55 2E 44 42 86 00 00 2F 1F 0C 00 00 00 05, 60 01 05",
        "00 04 01 10 0C 00 00 00 05 1E 09 55 2E 44 42 86 00 00 2F 1F 29 01, 60 01 04",
    })
    void aWriteOfSeveralIsRefusedInItsOwnForm(String apdu, String answer) {
        assertAnswered(application(apdu), answer);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4, 6, 7, 8, 9, 10, 11, 13, 17, 18, 19, 20, 21, 22, 23, 27, 29, 30, 31, 255})
    void everyOtherConfirmedServiceIsRejected(int choice) {
        assertAnswered(application(String.format(Locale.ROOT, "00 04 07 %02X 0D FF FF FF FF FA", choice)), "60 07 09");
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6, 9, 10, 11, 12, 255})
    void everyOtherUnconfirmedServiceIsDropped(int choice) {
        assertDropped(
                application(String.format(Locale.ROOT, "10 %02X A4 5B 01 18 04", choice)),
                DropReason.SERVICE_NOT_TAKEN);
    }

    /** F.4.9, which is of device 3, as public libraries' tests have it too. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "10 00 C4 02 00 00 03 22 04 00 91 03 21 63",
                "10 00 C4 02 00 00 03 24 00 00 01 E0 91 00 22 03 E7",
            })
    void anIAmOfOurOwnInstanceIsSomebodysWhoeverItIs(String apdu) {
        Peer sender = new Peer(0xC0000207, 47808, 0, Octets.of());
        assertThat(application(apdu)).isEqualTo(new Verdict.OwnInstance(sender));
        assertThat(link("81 0B 00 18 01 20 FF FF 00 FF" + "10 00 C4 02 00 00 03 22 04 00 91 03 21 63", true))
                .isEqualTo(new Verdict.OwnInstance(sender));
    }

    @Test
    void anIAmOfOurOwnInstanceIsOfWhomItsHeadersName() {
        // Passed on by a broadcast management device (J.2.5): from 192.0.2.9.
        assertThat(link("81 04 00 1A C0 00 02 09 BA C0 01 00 10 00 C4 02 00 00 03 22 04 00 91 03 21 63", false))
                .isEqualTo(new Verdict.OwnInstance(new Peer(0xC0000209, 47808, 0, Octets.of())));
        // Passed on by a router (6.2.2): from station 25 of network 1001.
        assertThat(link("81 0B 00 1C 01 28 FF FF 00 03 E9 01 19 FE 10 00 C4 02 00 00 03 22 04 00 91 03 21 63", true))
                .isEqualTo(new Verdict.OwnInstance(new Peer(0xC0000207, 47808, 1001, Octets.of(0x19))));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "10 00 C4 02 00 00 04 22 04 00 91 03 21 63", // of another device
                "10 00 C4 00 00 00 03 22 04 00 91 03 21 63", // of no device
                "10 00 C4 02 00 00 03 22 04 00 91 03", // no vendor
                "10 00 C4 02 00 00 03 22 04 00 91 04 21 63", // a segmentation that there is not
                "10 00 C4 02 00 00 03 22 04 00 91 03 21 63 21 63",
                "10 00 C4 02 00 00 03 22 04 00 91 03 25 FF 63",
                "10 00 0C 02 00 00 03 22 04 00 91 03 21 63",
                "10 00",
            })
    void anyOtherIAmIsDropped(String apdu) {
        assertDropped(application(apdu), DropReason.SERVICE_NOT_TAKEN);
    }

    @Test
    void thePrivateTransferThatHangsTheLibraryIsDropped() {
        assertDropped(application("10 04 09 07 1A 02 02 2E 65 FF FF FF FF FA 2F"), DropReason.SERVICE_NOT_TAKEN);
    }

    @ParameterizedTest
    @CsvSource({
        "10 08 09 03, PARAMETERS", // a lower limit alone
        "10 08 0C 00 40 00 00 1C 00 40 00 00, PARAMETERS", // beyond 22 bits
        "10 08 09 03 19 03 29 03, PARAMETERS",
        "10 08 0D FF FF FF FF FA, TAGS",
        "10 07, PARAMETERS",
        "10 07 3D 07 09 4F 41 54 65 6D 70, PARAMETERS", // a character set that nobody knows
        "10, MESSAGE_LENGTH",
        "00 04 01, MESSAGE_LENGTH",
        "30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F, UNEXPECTED_REPLY",
        "20 0F 0F, UNEXPECTED_REPLY",
        "20 0F, UNEXPECTED_REPLY",
        "40 01 00 00, UNEXPECTED_REPLY", // a window of none
        "41 01 00 05, UNEXPECTED_REPLY", // as from a server
        "50 0F 01 91 01, UNEXPECTED_REPLY",
        "50 0F 0C 91 01 91 1F, UNEXPECTED_REPLY",
        "50 0F 01 9D FF FF FF FF FA, UNEXPECTED_REPLY",
        "60 0F, UNEXPECTED_REPLY",
        "80 00, MESSAGE_TYPE",
        "F0 00, MESSAGE_TYPE",
    })
    void whatNobodyCanAnswerIsDropped(String apdu, DropReason reason) {
        assertDropped(application(apdu), reason);
    }

    @Test
    void aSegmentOfATakenServiceIsAPartAndOfAnyOtherRejected() {
        assertThat(application("0C 04 01 00 05 0C 0C 00 00 00 05 19 55")).isInstanceOf(Verdict.Part.class);
        assertThat(application("08 04 01 01 05 0F 0C 00 00 00 05 19 55")).isInstanceOf(Verdict.Part.class);
        assertAnswered(application("0C 04 01 00 05 07 0C 00 00 00 05 19 55"), "60 01 09");
    }

    @Test
    void aReservedSizeIsAborted() {
        assertAnswered(application("00 06 01 0C 0C 00 00 00 05 19 55"), "71 01 00");
    }

    @Test
    void aMessageLongerThanWeSayWeTakeIsDropped() {
        assertDropped(application("10 08" + "00".repeat(1475)), DropReason.MESSAGE_LENGTH);
    }

    @ParameterizedTest
    @CsvSource({
        "81 0A 00 08 01 00 10, LINK_LENGTH",
        "81 0A 00 08 01 00 10 08 00, LINK_LENGTH",
        "81 0A 00, NOT_BACNET_IP",
        "82 0A 00 08 01 00 10 08, NOT_BACNET_IP",
        "81 00 00 04, LINK_LENGTH",
        "81 03 00 04, LINK_FUNCTION",
        "81 07 00 04, LINK_FUNCTION",
        "81 0C 00 04, LINK_FUNCTION",
        "81 FF 00 04, LINK_FUNCTION",
        "81 04 00 08 C0 00 02 09, LINK_LENGTH",
        "81 04 00 0E 00 00 00 00 BA C0 01 00 10 08, FORWARDED_ADDRESS",
        "81 04 00 0E FF FF FF FF BA C0 01 00 10 08, FORWARDED_ADDRESS",
        "81 04 00 0E E0 00 00 01 BA C0 01 00 10 08, FORWARDED_ADDRESS",
        "81 04 00 0E C0 00 02 09 00 00 01 00 10 08, FORWARDED_ADDRESS",
    })
    void badLinksAreDropped(String datagram, DropReason reason) {
        assertDropped(link(datagram, false), reason);
    }

    @Test
    void aResultIsHandedOn() {
        assertThat(link("81 00 00 06 00 30", false)).isEqualTo(new Verdict.Result(0x30));
    }

    @ParameterizedTest
    @CsvSource({
        "81 01 00 04, 00 10",
        "81 02 00 04, 00 20",
        "81 05 00 06 00 3C, 00 30",
        "81 06 00 04, 00 40",
        "81 08 00 0A C0 00 02 09 BA C0, 00 50",
        "81 09 00 08 01 00 10 08, 00 60",
    })
    void functionsOfABroadcastManagementDeviceAreRefusedUnlessTheyCameToAll(String datagram, String result) {
        assertThat(link(datagram, false))
                .isEqualTo(new Verdict.Answer(Hex.octets("81 00 00 06 " + result), AnswerKind.LINK_REFUSAL));
        assertDropped(link(datagram, true), DropReason.LINK_FUNCTION);
    }

    @Test
    void aForwardedBroadcastCountsAsOfItsOrigin() {
        assertThat(link("81 04 00 0E C0 00 02 09 BA C1 01 00 10 08", false))
                .isEqualTo(
                        new Verdict.Pass(Hex.octets("01 00 10 08"), new InetSocketAddress("192.0.2.9", 47809), false));
    }

    @ParameterizedTest
    @CsvSource({
        "02 04, NETWORK_VERSION",
        "01 44, NETWORK_CONTROL",
        "01 14, NETWORK_CONTROL",
        "01, NETWORK_LENGTH",
        "'', NETWORK_VERSION",
        "01 24 FF, NETWORK_LENGTH",
        "01 24 FF FF 00, NETWORK_LENGTH", // no hop count
        "01 0C 00 07 09 22, NETWORK_LENGTH",
        "01 0C 00 07 00, NETWORK_ADDRESS", // a source of no octets
        "01 0C 00 00 01 22, NETWORK_ADDRESS",
        "01 0C FF FF 01 22, NETWORK_ADDRESS",
        "01 0C 00 07 08 01 02 03 04 05 06 07 08, NETWORK_ADDRESS",
        "01 24 00 09 00 FF, OTHER_NETWORK",
        "01 24 00 00 00 FF, NETWORK_ADDRESS",
        "01 24 FF FF 01 22 FF, NETWORK_ADDRESS",
        "01 24 FF FF 00 00, HOP_COUNT",
        "01 80 00, NETWORK_MESSAGE", // Who-Is-Router-To-Network
        "01 80 01, NETWORK_MESSAGE",
        "01 80 01 00 07 00, NETWORK_MESSAGE",
        "01 80 01 00 00, NETWORK_MESSAGE",
        "01 80 01 FF FF, NETWORK_MESSAGE",
        "01 88 00 07 01 22 01 00 09, NETWORK_MESSAGE", // routes from beyond a router
        "01 80 02 00 07 01, NETWORK_MESSAGE",
        "01 80 03 00 00 07, NETWORK_MESSAGE",
        "01 80 06 01 00 07 01 00, NETWORK_MESSAGE",
        "01 80 12, NETWORK_MESSAGE",
        "01 80 80 00 63, NETWORK_MESSAGE",
        "01 80, NETWORK_MESSAGE",
    })
    void badOrForeignNetworkMessagesAreDropped(String npdu, DropReason reason) {
        String whole = npdu.startsWith("01 80") || npdu.startsWith("01 88") ? npdu : npdu + " ";
        assertDropped(network(whole), reason);
    }

    @Test
    void routesAreHeard() {
        assertThat(network("01 80 01 00 07 00 09"))
                .isEqualTo(new Verdict.Pass(Hex.octets("01 80 01 00 07 00 09"), PEER, true));
    }

    @Test
    void anAnswerToARoutedStationGoesBackThroughItsRouter() {
        Verdict verdict = network("01 0C 00 07 01 22 00 04 07 11");
        assertThat(verdict)
                .isEqualTo(
                        new Verdict.Answer(Hex.octets("81 0A 00 0E 01 20 00 07 01 22 FF 60 07 09"), AnswerKind.REJECT));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "00 04 01 0C 0C 00 00 00 05 19 55",
                "00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F",
                "00 04 07 11",
                "0C 04 01 00 05 0C 0C 00 00 00 05 19 55",
            })
    void aConfirmedRequestToAllIsNeitherPassedNorAnswered(String apdu) {
        Octets npdu = Hex.octets("01 04" + apdu);
        Octets global = Hex.octets("01 24 FF FF 00 FF" + apdu);
        Datagram[] toAll = {
            new Datagram(FrameJudge.broadcast(npdu), PEER, false),
            new Datagram(FrameJudge.unicast(npdu), PEER, true),
            new Datagram(FrameJudge.unicast(global), PEER, false),
        };
        for (Datagram datagram : toAll) {
            assertDropped(judge.judge(datagram), DropReason.CONFIRMED_BROADCAST);
        }
    }

    @Test
    void anUnconfirmedRequestToAllNetworksPasses() {
        assertThat(network("01 20 FF FF 00 FF 10 08")).isInstanceOf(Verdict.Pass.class);
    }
}
