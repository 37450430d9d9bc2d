package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.door.FakeGate;
import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.Site;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** What a permitted point is asked for by, over hand-made frames, and what is answered for each no of the gate. */
final class DoorIT {
    private static final int DEMAND = 2 << 22 | 50;
    private static final int ENABLE = 5 << 22 | 51;
    private static final int MODE = 19 << 22 | 52;
    private static final int LEASE = 2 << 22 | 60;
    private static final int RECORD = 2 << 22 | 53;
    private static final String ACK = "20 59 0F";
    private static final String DENIED = "50 59 0F 91 02 91 28";

    private final Plant plant = PermittedPlant.plant(new RunningClock());
    private final FakeGate gate = new FakeGate();
    private final BacnetAdapter adapter = started(PermittedPlant.permitted(plant), gate);
    private final Station station = Station.talkingTo(adapter.port());

    private BacnetAdapter started(Site site, FakeGate with) {
        BacnetAdapter made = new BacnetAdapter(
                Plant.settings(0).with(BacnetOptions.USUAL.withLimits(100_000, 500)),
                site,
                plant.table,
                new RunningClock(),
                with);
        try {
            made.start();
        } catch (BacnetStartException e) {
            throw new AssertionError(e);
        }
        return made;
    }

    DoorIT() {
        plant.answers(ControllerLink.up(plant.now()));
    }

    @AfterEach
    void close() {
        station.close();
        adapter.close();
    }

    /** WriteProperty of a value in hexadecimal, at a priority where there is one. */
    private String write(int object, String value, String priority) {
        return station.ask(writeRequest(0x59, object, value, priority));
    }

    private static String writeRequest(int invokeId, int object, String value, String priority) {
        return String.format(Locale.ROOT, "00 04 %02X 0F 0C %08X 19 55 3E %s 3F %s", invokeId, object, value, priority);
    }

    private String read(int object, int property) {
        String reply = station.ask(Rig.readProperty(object, property));
        return reply.startsWith("30") ? reply.replaceFirst("^.*? 3E ", "").replaceFirst(" 3F$", "") : reply;
    }

    private String readAt(int object, int property, int index) {
        return station.ask(Rig.readProperty(object, property) + " 29 " + String.format(Locale.ROOT, "%02X", index));
    }

    private Ask last() {
        return gate.asks.get(gate.asks.size() - 1);
    }

    @Test
    void aWriteThatIsAdmittedIsReadBackAtOnce() {
        assertThat(read(DEMAND, 85)).isEqualTo("44 41 F0 00 00"); // 30, what silence writes
        assertThat(read(DEMAND, 104)).isEqualTo("44 41 F0 00 00");
        assertThat(write(DEMAND, "44 42 34 00 00", "49 08")).isEqualTo(ACK); // 45
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 34 00 00");
        assertThat(read(DEMAND, 431)).isEqualTo("21 08");
        assertThat(read(DEMAND, 87)).isEqualTo("00 00 00 00 00 00 00 44 42 34 00 00" + " 00".repeat(8));
        assertThat(readAt(DEMAND, 87, 0)).endsWith("29 00 3E 21 10 3F");
        assertThat(readAt(DEMAND, 87, 8)).endsWith("29 08 3E 44 42 34 00 00 3F");
        assertThat(readAt(DEMAND, 87, 9)).endsWith("29 09 3E 00 3F");
        assertThat(readAt(DEMAND, 87, 17)).isEqualTo("50 01 0C 91 02 91 2A"); // invalid-array-index
        Ask ask = last();
        assertThat(ask.point()).isEqualTo(PermittedPlant.DEMAND);
        assertThat(ask.slot()).isEqualTo(8);
        assertThat(ask.wanted()).isEqualTo(new Wanted.Number(new BigDecimal("45.0")));
        assertThat(ask.source()).isEqualTo(new Source.Bacnet(0x7F000001, station.port(), 0));
    }

    @Test
    void nullGivesUpAndTheLowestSlotWins() {
        write(DEMAND, "44 42 34 00 00", "49 08");
        assertThat(write(DEMAND, "44 42 48 00 00", "49 03")).isEqualTo(ACK); // 50 at 3
        assertThat(write(DEMAND, "44 42 5C 00 00", "")).isEqualTo(ACK); // 55, and without a priority 16
        assertThat(last().slot()).isEqualTo(16);
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 48 00 00");
        assertThat(write(DEMAND, "00", "49 03")).isEqualTo(ACK);
        assertThat(last().wanted()).isEqualTo(new Wanted.Nothing());
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 34 00 00");
        write(DEMAND, "00", "49 08");
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 5C 00 00");
        write(DEMAND, "00", "");
        assertThat(read(DEMAND, 85)).isEqualTo("44 41 F0 00 00");
        assertThat(read(DEMAND, 431)).isEqualTo("00");
    }

    @Test
    void whoHoldsASlotIsShown() {
        write(DEMAND, "44 42 34 00 00", "49 08");
        String mac =
                String.format(Locale.ROOT, "65 06 7F 00 00 01 %02X %02X", station.port() >> 8, station.port() & 0xFF);
        String address = "2E 21 00 " + mac + " 2F";
        assertThat(read(DEMAND, 433)).isEqualTo(address);
        assertThat(readAt(DEMAND, 434, 8)).endsWith("3E " + address + " 3F");
        assertThat(readAt(DEMAND, 434, 7)).endsWith("3E 08 3F");
        gate.ask(new Ask(PermittedPlant.DEMAND, new Wanted.Number(BigDecimal.TEN), 2, new Source.Mqtt("an optimiser")));
        assertThat(read(DEMAND, 433)).isEqualTo("1E 0C 02 00 00 03 1C 02 00 00 03 1F");
        String words = HexText.of(read(DEMAND, 28));
        assertThat(words).endsWith("the demand of a boiler: slot 2, mqtt an optimiser");
    }

    @Test
    void aBitAndAStateHaveTheNumbersOfTheirFeedback() {
        assertThat(write(ENABLE, "91 01", "49 0A")).isEqualTo(ACK);
        assertThat(last().wanted()).isEqualTo(new Wanted.Number(BigDecimal.ONE));
        assertThat(read(ENABLE, 85)).isEqualTo("91 01");
        assertThat(read(MODE, 85)).isEqualTo("21 02"); // the lowest state that is allowed, 0
        assertThat(write(MODE, "21 01", "49 0A")).isEqualTo(ACK);
        assertThat(last().wanted()).isEqualTo(new Wanted.Number(BigDecimal.TEN));
        assertThat(read(MODE, 85)).isEqualTo("21 01");
        assertThat(read(MODE, 74)).isEqualTo("21 03");
        assertThat(readAt(MODE, 87, 10)).endsWith("3E 21 01 3F");
    }

    @ParameterizedTest
    @CsvSource({
        "00800032, 21 05, 09", // Unsigned to an Analog Value
        "00800032, 75 02 00 41, 09",
        "00800032, 10, 09",
        "00800032, 44 7F C0 00 00, 09", // NaN
        "00800032, 44 7F 80 00 00, 09",
        "00800032, 44 42 34 00 00 44 42 34 00 00, 09", // two values
        "00800032, 0E 44 42 34 00 00 0F, 09", // something constructed
        "01400033, 44 3F 80 00 00, 09", // REAL to a Binary Value
        "01400033, 91 02, 25",
        "04C00034, 91 01, 09",
        "04C00034, 21 00, 25",
        "04C00034, 21 04, 25",
        "04C00034, 25 08 00 00 00 00 00 00 00 01, 25"
    })
    void aValueThatCannotBeMeantIsSuchAnError(String object, String value, String code) {
        assertThat(write((int) Long.parseLong(object, 16), value, "49 08")).isEqualTo("50 59 0F 91 02 91 " + code);
        assertThat(last().wanted()).isInstanceOf(Wanted.NoNumber.class);
    }

    @ParameterizedTest
    @EnumSource(Question.class)
    void everyNoOfTheGateHasACode(Question question) {
        gate.refuse(Optional.of(question));
        String expected = switch (question) {
            case KNOWN_POINT, PERMIT, ROLE, PROTECTED, APPROVED, SOURCE -> "91 02 91 28";
            case TYPE -> "91 02 91 09";
            case RANGE, STEP -> "91 02 91 25";
            case INTERVAL -> "91 00 91 03";
            case BUDGET -> "91 03 91 14";
            case FRESH, IDENTITY, ANSWERING, RECORD -> "91 00 91 19";
        };
        assertThat(write(DEMAND, "44 42 34 00 00", "49 08")).isEqualTo("50 59 0F " + expected);
        assertThat(read(DEMAND, 431)).isEqualTo("00");
    }

    @Test
    void aPriorityThatThereIsNotIsRejectedAndNeverAsked() {
        assertThat(write(DEMAND, "44 42 34 00 00", "49 00")).isEqualTo("60 59 06");
        assertThat(write(DEMAND, "44 42 34 00 00", "49 11")).isEqualTo("60 59 06");
        assertThat(gate.asks).isEmpty();
    }

    /** Every property of every object, but for the list of subscriptions and the time. */
    private Map<String, String> everything(List<Integer> objects) {
        Map<String, String> all = new LinkedHashMap<>();
        for (int object : objects) {
            for (int property = 0; property <= 512; property++) {
                if (property != 152 && property != 57) {
                    String reply = station.ask(Rig.readProperty(object, property));
                    if (reply.startsWith("30")) {
                        all.put(object + " " + property, reply);
                    }
                }
            }
        }
        return all;
    }

    private List<Integer> objects() {
        List<Integer> objects = new ArrayList<>();
        for (int index = 1; index <= adapter.objectCount() + 1; index++) {
            String reply = station.ask(String.format(Locale.ROOT, "00 05 01 0C 0C 02 00 00 03 19 4C 29 %02X", index));
            objects.add((int) Long.parseLong(
                    reply.replaceFirst("^.*? 3E C4 ", "")
                            .replaceFirst(" 3F$", "")
                            .replace(" ", ""),
                    16));
        }
        return objects;
    }

    @Test
    void nothingButAPresentValueThatIsPermittedIsEverAskedForOrChanged() {
        List<Integer> objects = objects();
        assertThat(objects).contains(DEMAND, ENABLE, MODE, LEASE, 5, 3 << 22 | 6, 13 << 22 | 7, 8 << 22 | 3, 29 << 22);
        write(DEMAND, "44 42 34 00 00", "49 08");
        Map<String, String> before = everything(objects);
        assertThat(before).hasSizeGreaterThan(250);
        for (int object : objects) {
            for (int property = 0; property <= 512; property++) {
                boolean permitted =
                        property == 85 && (object == DEMAND || object == ENABLE || object == MODE || object == RECORD);
                if (!permitted) {
                    String value = "44 42 48 00 00";
                    assertThat(station.ask(String.format(
                                    Locale.ROOT,
                                    "00 04 59 0F 0C %08X %s 3E %s 3F 49 08",
                                    object,
                                    Rig.propertyTag(1, property),
                                    value)))
                            .startsWith("50 59 0F 91");
                    assertThat(station.ask(String.format(
                                    Locale.ROOT,
                                    "00 04 59 10 0C %08X 1E %s 2E %s 2F 39 08 1F",
                                    object,
                                    Rig.propertyTag(0, property),
                                    value)))
                            .startsWith("50 59 10 0E 91");
                }
            }
        }
        assertThat(station.ask("00 04 59 0F 0C 00 80 00 32 19 55 29 01 3E 44 42 34 00 00 3F 49 08"))
                .isEqualTo("50 59 0F 91 02 91 32");
        assertThat(gate.asks).hasSize(1);
        assertThat(everything(objects)).isEqualTo(before);
    }

    @Test
    void aRequestInSegmentsIsPutTogetherAndAskedForOnce() {
        String[] segments = {
            "0C 04 21 00 04 10 0C 00 80 00 32 1E 09 55 2E 44 42 34 00", "08 04 21 01 04 10 00 2F 39 08 1F"
        };
        for (int again = 0; again < 2; again++) {
            station.send(segments[0]);
            assertThat(station.hearApplication()).startsWith("41 21 00");
            station.send(segments[1]);
            assertThat(List.of(station.hearApplication(), station.hearApplication()))
                    .contains("20 21 10")
                    .anyMatch(reply -> reply.startsWith("41 21 01"));
        }
        assertThat(gate.asks).hasSize(1);
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 34 00 00");
    }

    @Test
    void aRequestThatComesAgainIsAnsweredAndNotDoneAgain() {
        String request = writeRequest(7, DEMAND, "44 42 34 00 00", "49 08");
        assertThat(station.ask(request)).isEqualTo("20 07 0F");
        gate.refuse(Optional.of(Question.INTERVAL));
        assertThat(station.ask(request)).isEqualTo("20 07 0F");
        assertThat(gate.asks).hasSize(1);
        assertThat(station.ask(writeRequest(8, DEMAND, "44 42 34 00 00", "49 08")))
                .isEqualTo("50 08 0F 91 00 91 03");
        gate.refuse(Optional.empty());
        // The same number for another request: the one before is over, and its repetition would be a new one.
        assertThat(station.ask(writeRequest(7, DEMAND, "00", "49 08"))).isEqualTo("20 07 0F");
        assertThat(station.ask(request)).isEqualTo("20 07 0F");
        assertThat(gate.asks).hasSize(4);
        try (Station other = Station.talkingTo(adapter.port())) {
            assertThat(other.ask(request)).isEqualTo("20 07 0F");
        }
        assertThat(gate.asks).hasSize(5);
    }

    @Test
    void severalGoInOrderAndStopAtTheFirstThatIsRefused() {
        String several = "00 04 59 10 0C 00 80 00 32 1E 09 55 2E 44 42 34 00 00 2F 39 08 1F"
                + " 0C 04 C0 00 34 1E 09 55 2E 91 01 2F 39 08 1F"
                + " 0C 01 40 00 33 1E 09 55 2E 91 01 2F 39 08 1F";
        String refused = "50 59 10 0E 91 02 91 09 0F 1E 0C 04 C0 00 34 19 55 1F";
        assertThat(station.ask(several)).isEqualTo(refused);
        assertThat(read(DEMAND, 85)).isEqualTo("44 42 34 00 00");
        assertThat(gate.asks).hasSize(2);
        assertThat(station.ask(several)).isEqualTo(refused);
        assertThat(gate.asks).hasSize(2);
        assertThat(station.ask(several.replace("2E 91 01 2F 39 08 1F 0C 01", "2E 21 01 2F 39 08 1F 0C 01")))
                .isEqualTo("20 59 10");
        assertThat(read(MODE, 85)).isEqualTo("21 01");
        assertThat(read(ENABLE, 85)).isEqualTo("91 01");
    }

    @Test
    void severalOfWhichOneCannotBeReadAreRejectedWhole() {
        assertThat(station.ask("00 04 59 10 0C 00 80 00 32 1E 09 55 2E 44 42 34 00 00 2F 39 08 1F"
                        + " 0C 04 C0 00 34 1E 09 55 2E 2F 1F"))
                .isEqualTo("60 59 05");
        assertThat(gate.asks).isEmpty();
    }

    @Test
    void severalPropertiesOfOneObjectAreTold() {
        // Description first: it is refused, and the Present_Value after it never asked for.
        assertThat(station.ask(
                        "00 04 59 10 0C 00 80 00 32 1E 09 1C 2E 75 02 00 41 2F" + " 09 55 2E 44 42 34 00 00 2F 1F"))
                .isEqualTo("50 59 10 0E 91 02 91 28 0F 1E 0C 00 80 00 32 19 1C 1F");
        assertThat(gate.asks).isEmpty();
    }

    @Test
    void aStationBehindARouterIsKnownByItsNetwork() {
        // From network 5, station 7: F.3.8's frame in its form, sent by a router.
        station.sendNetwork(Hex.bytes("01 0C 00 05 01 07 00 04 59 0F 0C 00 80 00 32 19 55 3E 44 42 34 00 00 3F 49 08"));
        assertThat(station.hear(Station.PATIENCE_MILLIS).orElseThrow()).endsWith("01 20 00 05 01 07 FF 20 59 0F");
        assertThat(last().source()).isEqualTo(new Source.Bacnet(0x7F000001, station.port(), 5));
    }

    @Test
    void whatKeepsAPermitIsItsReliability() {
        // That its controller answers is applied by a thread of its own.
        await().untilAsserted(() -> assertThat(read(DEMAND, 103)).isEqualTo("91 00"));
        assertThat(read(DEMAND, 111)).isEqualTo("82 04 00");
        gate.stand(true, "no time yet", "", "");
        assertThat(read(DEMAND, 103)).isEqualTo("91 08");
        assertThat(read(DEMAND, 111)).isEqualTo("82 04 40");
        gate.stand(true, "no time yet", "the controller refused", "");
        assertThat(read(DEMAND, 103)).isEqualTo("91 11");
        gate.stand(true, "", "", "another writer");
        assertThat(read(DEMAND, 103)).isEqualTo("91 0A");
        gate.stand(false, "", "", "");
        assertThat(read(DEMAND, 103)).isEqualTo("91 0A");
        gate.stand(true, "", "", "");
        plant.answers(ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", plant.now()));
        await().untilAsserted(() -> assertThat(read(DEMAND, 103)).isEqualTo("91 0C"));
    }

    @Test
    void aStateThatHasNoNumberIsOutOfRange() {
        gate.ask(new Ask(
                PermittedPlant.MODE, new Wanted.Number(BigDecimal.valueOf(77)), 2, new Source.Mqtt("an optimiser")));
        await().untilAsserted(() -> assertThat(read(MODE, 103)).isEqualTo("91 19"));
        assertThat(read(MODE, 111)).isEqualTo("82 04 40");
        assertThat(read(MODE, 85)).isEqualTo("21 01");
        assertThat(read(MODE, 431)).isEqualTo("21 02");
    }

    @Test
    void theLeaseRunsDownAndIsNeverWritten() {
        assertThat(read(LEASE, 85)).isEqualTo("44 00 00 00 00");
        write(DEMAND, "44 42 34 00 00", "49 08");
        assertThat(read(LEASE, 85)).isEqualTo("44 44 61 00 00"); // 900
        gate.left(1);
        assertThat(read(LEASE, 85)).isEqualTo("44 3F 80 00 00");
        assertThat(read(LEASE, 117)).isEqualTo("91 49");
        assertThat(read(LEASE, 22)).isEqualTo("44 41 20 00 00");
        assertThat(write(LEASE, "44 42 34 00 00", "")).isEqualTo(DENIED);
        assertThat(read(2 << 22 | 63, 85)).isEqualTo("50 01 0C 91 01 91 1F"); // a record selection has none
    }

    @Test
    void whatIsAskedForIsToldToSubscribers() {
        await().untilAsserted(() -> assertThat(read(DEMAND, 111)).isEqualTo("82 04 00"));
        String subscribe = "00 05 02 05 09 07 1C %08X 29 00 39 3C";
        assertThat(station.ask(String.format(Locale.ROOT, subscribe, DEMAND))).isEqualTo("20 02 05");
        assertThat(notification())
                .contains("1C 02 00 00 03 2C 00 80 00 32")
                .endsWith("2E 44 41 F0 00 00 2F 09 6F 2E 82 04 00 2F 4F");
        try (Station asker = Station.talkingTo(adapter.port())) {
            assertThat(asker.ask(writeRequest(1, DEMAND, "44 42 34 00 00", "49 08")))
                    .isEqualTo("20 01 0F");
            assertThat(notification()).endsWith("2E 44 42 34 00 00 2F 09 6F 2E 82 04 00 2F 4F");
            assertThat(asker.ask(writeRequest(2, DEMAND, "00", "49 08"))).isEqualTo("20 02 0F");
            assertThat(notification()).endsWith("2E 44 41 F0 00 00 2F 09 6F 2E 82 04 00 2F 4F");
            assertThat(station.ask(String.format(Locale.ROOT, subscribe, LEASE)))
                    .isEqualTo("20 02 05");
            assertThat(notification()).contains("2C 00 80 00 3C");
            asker.ask(writeRequest(3, DEMAND, "44 42 34 00 00", "49 08"));
            List<String> both = List.of(notification(), notification());
            assertThat(both).anyMatch(one -> one.contains("2C 00 80 00 3C") && one.contains("2E 44 44 61 00 00 2F"));
            gate.left(880_000_000_000L);
            assertThat(notification()).contains("2C 00 80 00 3C").contains("2E 44 44 5C 00 00 2F");
        }
    }

    private String notification() {
        return station.hearApplication();
    }

    @Test
    void aPermitMoreOrLessMovesNoOtherObject() {
        List<String> with = objects(adapter);
        BacnetAdapter fewer = started(plant.site.with(PermittedPlant.permits().subList(1, 2)), gate);
        BacnetAdapter without = started(plant.site, gate);
        try {
            List<String> one = objects(fewer);
            List<String> none = objects(without);
            assertThat(with).containsAll(one);
            assertThat(one).containsAll(none);
            List<String> added = new ArrayList<>(with);
            added.removeAll(none);
            assertThat(added)
                    .containsExactly(
                            "C4 00 80 00 32 demand-request",
                            "C4 00 80 00 3C demand-lease",
                            "C4 01 40 00 33 enable-request",
                            "C4 00 80 00 3D enable-lease",
                            "C4 04 C0 00 34 mode-request",
                            "C4 00 80 00 3E mode-lease",
                            "C4 00 80 00 35 record-request");
            added.retainAll(one);
            assertThat(added).containsExactly("C4 01 40 00 33 enable-request", "C4 00 80 00 3D enable-lease");
        } finally {
            fewer.close();
            without.close();
        }
    }

    /** Each object of the list with its name, without that of its controller. */
    private static List<String> objects(BacnetAdapter of) {
        List<String> objects = new ArrayList<>();
        try (Station reader = Station.talkingTo(of.port())) {
            for (int index = 1; index <= of.objectCount() + 1; index++) {
                String reply =
                        reader.ask(String.format(Locale.ROOT, "00 05 01 0C 0C 02 00 00 03 19 4C 29 %02X", index));
                String id = reply.replaceFirst("^.*? 3E ", "").replaceFirst(" 3F$", "");
                String name = reader.ask("02 75 01 0C 0C" + id.substring(2) + " 19 4D");
                objects.add(
                        id + " " + HexText.of(name.replaceFirst("^.*? 3E ", "")).replaceFirst("^.*boiler-1\\.", ""));
            }
        }
        return objects;
    }

    @Test
    void theServicesAreListedWhereSomethingCanBeAskedForAlone() {
        assertThat(station.ask("00 05 01 0C 0C 02 00 00 03 19 61"))
                .isEqualTo("30 01 0C 0C 02 00 00 03 19 61 3E 85 07 04 04 0B 80 00 72 00 3F");
    }
}
