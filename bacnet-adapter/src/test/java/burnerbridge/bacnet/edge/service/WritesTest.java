package burnerbridge.bacnet.edge.service;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The writing services at the edge. Frames of ASHRAE 135, Annex F, are from memory. */
final class WritesTest {
    private static final Peer STATION = new Peer(0xC0000207, 47808, 0, Octets.of());
    private static final String ACCESS_DENIED = "91 02 91 28";

    /** Analog Values 1, 5, 6 and 7, with Present_Value, Description and the array Priority_Array. */
    private static final class Values implements ObjectDirectory {
        @Override
        public int deviceInstance() {
            return 3;
        }

        @Override
        public Octets iAm() {
            return Octets.of();
        }

        @Override
        public boolean hasObject(ObjectId object) {
            return object.type() == 2 && List.of(1, 5, 6, 7).contains(object.instance());
        }

        @Override
        public boolean hasProperty(ObjectId object, int property) {
            return property == 85 || property == 28 || property == 87;
        }

        @Override
        public boolean isArray(ObjectId object, int property) {
            return property == 87;
        }
    }

    /** Leads to all of them but Analog Value 7, and remembers. */
    private static final class Door implements WriteDoor {
        final List<Wish> wishes = new ArrayList<>();
        final List<Peer> peers = new ArrayList<>();
        Optional<Trouble> answer = Optional.empty();

        @Override
        public boolean leadsTo(ObjectId object) {
            return object.instance() != 7;
        }

        @Override
        public Optional<Trouble> ask(Wish wish, Peer from) {
            wishes.add(wish);
            peers.add(from);
            return answer;
        }
    }

    private final HandClock clock = new HandClock();
    private final Door door = new Door();
    private final ApduJudge judge = new ApduJudge(new Values(), door, clock, false);

    private String ask(String apdu, Peer from) {
        ApduVerdict verdict = judge.judge(Hex.octets(apdu), from, false);
        return ((ApduVerdict.Answer) verdict).apdu().hex();
    }

    private String ask(String apdu) {
        return ask(apdu, STATION);
    }

    private String wishes() {
        List<String> texts = new ArrayList<>();
        door.wishes.forEach(wish -> texts.add(
                wish.object().instance() + "=" + wish.value().get(0).content().hex() + "@" + wish.priority()));
        return String.join(", ", texts);
    }

    /** F.3.8. */
    @Test
    void oneIsAskedForAndAcknowledged() {
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F")).isEqualTo("20 59 0F");
        assertThat(wishes()).isEqualTo("1=43 34 00 00@16");
        assertThat(door.peers).containsExactly(STATION);
    }

    /** F.3.10, whose third object the door leads past. */
    @Test
    void severalAreAskedForInTheirOrderUpToTheFirstThatIsRefused() {
        String several = "00 04 01 10 0C 00 80 00 05 1E 09 55 2E 44 42 86 00 00 2F 1F"
                + "0C 00 80 00 06 1E 09 55 2E 44 42 86 00 00 2F 1F";
        assertThat(ask(several)).isEqualTo("20 01 10");
        assertThat(wishes()).isEqualTo("5=42 86 00 00@16, 6=42 86 00 00@16");
        String third = "0C 00 80 00 07 1E 09 55 2E 44 42 90 00 00 2F 1F";
        String fourth = "0C 00 80 00 01 1E 09 55 2E 44 42 90 00 00 2F 1F";
        assertThat(ask(several.replace("04 01", "04 02") + third + fourth))
                .isEqualTo("50 02 10 0E " + ACCESS_DENIED + " 0F 1E 0C 00 80 00 07 19 55 1F");
        assertThat(door.wishes).hasSize(4);
    }

    @Test
    void aRequestThatComesAgainIsAnsweredAsBeforeForAsLongAsAStationRepeatsIt() {
        String request = "00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F";
        door.answer = Optional.of(Trouble.DEVICE_BUSY);
        assertThat(ask(request)).isEqualTo("50 59 0F 91 00 91 03");
        door.answer = Optional.empty();
        clock.forward(Duration.ofMillis(11_999));
        assertThat(ask(request)).isEqualTo("50 59 0F 91 00 91 03");
        assertThat(door.wishes).hasSize(1);
        clock.forward(Duration.ofMillis(1));
        assertThat(ask(request)).isEqualTo("20 59 0F");
        assertThat(door.wishes).hasSize(2);
    }

    @Test
    void anotherStationOrAnotherNumberIsAnotherRequest() {
        String request = "00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F";
        ask(request);
        ask(request.replace("59", "5A"));
        ask(request, new Peer(0xC0000207, 47809, 0, Octets.of()));
        ask(request, new Peer(0xC0000207, 47808, 5, Octets.of(7)));
        ask(request, new Peer(0xC0000207, 47808, 5, Octets.of(8)));
        assertThat(door.wishes).hasSize(5);
        ask(request, new Peer(0xC0000207, 47808, 5, Octets.of(8)));
        assertThat(door.wishes).hasSize(5);
    }

    @Test
    void howManyAnswersAreKeptIsBounded() {
        String request = "00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F";
        ask(request);
        for (int port = 1; port <= 9_999; port++) {
            ask(request, new Peer(1, port, 0, Octets.of()));
        }
        ask(request);
        assertThat(door.wishes).hasSize(10_000);
        ask(request, new Peer(1, 10_000, 0, Octets.of()));
        ask(request);
        assertThat(door.wishes).hasSize(10_002);
    }

    @Test
    void whatTheDoorDoesNotLeadToIsNeverAsked() {
        assertThat(ask("00 04 59 0F 0C 00 80 00 07 19 55 3E 44 43 34 00 00 3F")).isEqualTo("50 59 0F " + ACCESS_DENIED);
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 1C 3E 75 02 00 41 3F")).isEqualTo("50 59 0F " + ACCESS_DENIED);
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 57 29 08 3E 44 43 34 00 00 3F"))
                .isEqualTo("50 59 0F " + ACCESS_DENIED);
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 55 29 01 3E 44 43 34 00 00 3F"))
                .isEqualTo("50 59 0F 91 02 91 32");
        assertThat(ask("00 04 59 0F 0C 00 80 00 02 19 55 3E 44 43 34 00 00 3F")).isEqualTo("50 59 0F 91 01 91 1F");
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 67 3E 91 00 3F")).isEqualTo("50 59 0F 91 02 91 20");
        assertThat(door.wishes).isEmpty();
    }

    @Test
    void whatIsNotWellFormedIsRejectedWholeAndNeverAsked() {
        String good = "0C 00 80 00 05 1E 09 55 2E 44 42 86 00 00 2F 1F";
        assertThat(ask("00 04 01 10 " + good + "0C 00 80 00 06 1E 09 55 2E 2F 1F"))
                .isEqualTo("60 01 05");
        assertThat(ask("00 04 01 10 " + good + "0C 00 80 00 06 1E 09 55 2E 00 2F 39 11 1F"))
                .isEqualTo("60 01 06");
        assertThat(ask("00 04 01 10 " + good + "0C 00 80 00 06 1E 1F")).isEqualTo("60 01 05");
        assertThat(ask("00 04 01 10 " + good + "0C 00 80 00 06 1E 09 55 2E 44 42 86 00 00 2F"))
                .isEqualTo("60 01 04");
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 55 3E 00 3F 49 08 59 01")).isEqualTo("60 59 07");
        assertThat(ask("00 04 59 0F 0C 00 80 00 01 19 55 3E 00 3F 49 00")).isEqualTo("60 59 06");
        assertThat(door.wishes).isEmpty();
    }

    /** Some octets are another, gone, or more. */
    private static byte[] damaged(byte[] whole, Random random) {
        byte[] octets = whole.clone();
        for (int times = random.nextInt(3) + 1; times > 0 && octets.length > 4; times--) {
            int at = 4 + random.nextInt(octets.length - 4);
            switch (random.nextInt(4)) {
                case 0 -> octets[at] = (byte) random.nextInt(256);
                case 1 -> octets[at] ^= (byte) (1 << random.nextInt(8));
                case 2 -> octets = Arrays.copyOf(octets, at);
                default -> {
                    byte[] longer = Arrays.copyOf(octets, octets.length + 1);
                    System.arraycopy(octets, at, longer, at + 1, octets.length - at);
                    octets = longer;
                }
            }
        }
        return octets;
    }

    @Test
    void damagedRequestsAskForNothingThatTheDoorDoesNotLeadTo() {
        Random random = new Random(Seed.value());
        byte[][] whole = {
            Hex.bytes("00 04 59 0F 0C 00 80 00 01 19 55 3E 44 43 34 00 00 3F 49 08"),
            Hex.bytes("00 04 01 10 0C 00 80 00 05 1E 09 55 2E 44 42 86 00 00 2F 39 08 1F"
                    + "0C 00 80 00 06 1E 09 55 2E 44 42 86 00 00 2F 09 1C 2E 75 02 00 41 2F 1F"),
            Hex.bytes("00 04 59 0F 0C 00 80 00 05 19 55 3E 00 3F")
        };
        int acknowledged = 0;
        int refused = 0;
        for (int time = 0; time < 100_000; time++) {
            byte[] apdu = damaged(whole[random.nextInt(whole.length)], random);
            ApduVerdict verdict = judge.judge(Octets.copyOf(apdu, apdu.length), STATION, false);
            if (verdict instanceof ApduVerdict.Answer answer) {
                acknowledged += answer.apdu().at(0) == 0x20 ? 1 : 0;
                refused += answer.apdu().at(0) != 0x20 ? 1 : 0;
            }
            clock.forward(Duration.ofSeconds(13));
        }
        assertThat(acknowledged).isGreaterThan(1_000);
        assertThat(refused).isGreaterThan(50_000);
        assertThat(door.wishes).allSatisfy(wish -> {
            assertThat(wish.object().type()).isEqualTo(2);
            assertThat(wish.object().instance()).isIn(1, 5, 6);
            assertThat(wish.priority()).isBetween(1, 16);
            assertThat(wish.value()).isNotEmpty();
        });
    }
}
