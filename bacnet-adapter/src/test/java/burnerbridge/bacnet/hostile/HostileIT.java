package burnerbridge.bacnet.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.Rig;
import burnerbridge.bacnet.Station;
import burnerbridge.bacnet.edge.coding.Hex;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What a hostile station can send: the device goes on answering, its threads rest, nothing has changed. */
final class HostileIT {
    private static final long SEED = 20261125L;
    private static final int RANDOM_DATAGRAMS = 40_000;
    private static final String[] LENGTHS = {
        "FF FF FF FF FA", "FF FF FF FF FF", "FF 80 00 00 00", "FF 7F FF FF FF", "FE FF FF", "FD", "FF 00 00 00 01"
    };

    private final Rig rig = new Rig();
    private final Station attacker = Station.talkingTo(rig.adapter.port());
    private Map<String, String> before = Map.of();
    private int sent;

    HostileIT() {
        rig.plant.good("flue-temperature", 72.3);
        await().untilAsserted(() ->
                assertThat(rig.station.ask("00 04 01 0C 0C 00 00 00 05 19 55")).contains("44 42 90 99 9A"));
        before = rig.everything();
    }

    @AfterEach
    void close() {
        attacker.close();
        rig.close();
    }

    /** Sends what follows the link header, and asks now and then, so that no buffer overflows unseen. */
    private void attack(byte[] npdu) {
        attackRaw(Station.framed(0x0A, npdu));
    }

    private void attackRaw(byte[] datagram) {
        attacker.sendRaw(datagram);
        if (++sent % 64 == 0) {
            assertThat(rig.answers()).isTrue();
        }
    }

    private void assertUnharmed() {
        assertThat(rig.answers()).isTrue();
        assertThat(rig.everything()).isEqualTo(before);
        long start = rig.transportTime();
        await().pollDelay(Duration.ofMillis(500)).until(() -> true);
        assertThat(rig.transportTime() - start)
                .isLessThan(Duration.ofMillis(250).toNanos());
    }

    @Test
    void theTwoDatagramsThatHangTheLibraryDoNotHangUs() {
        attack(Hex.bytes("01 00 10 04 09 07 1A 02 02 2E 65 FF FF FF FF FA 2F"));
        assertThat(attacker.hear(200)).isEmpty();
        attack(Hex.bytes("01 04 00 04 07 0F 0C 00 00 03 E8 1A 02 00 3E 0D FF FF FF FF FA 3F"));
        // Rejected for its tag, which only the edge sees: the library would have to parse it to know.
        assertThat(attacker.hearApplication()).isEqualTo("60 07 04");
        assertUnharmed();
    }

    @Test
    void everyOctetOfEveryKindOfDatagramChangedToANastyOne() {
        for (String whole : Damage.WELL_FORMED) {
            byte[] good = Hex.bytes(whole);
            for (int at = 0; at < good.length; at++) {
                for (int nasty : Damage.NASTY) {
                    byte[] bad = good.clone();
                    bad[at] = (byte) nasty;
                    attack(bad);
                }
            }
        }
        assertThat(sent).isGreaterThan(9_000);
        assertUnharmed();
    }

    @Test
    void everyKindOfDatagramCutShortOrGivenAHugeLengthAnywhere() {
        for (String whole : Damage.WELL_FORMED) {
            byte[] good = Hex.bytes(whole);
            byte[] link = Station.framed(0x0A, good);
            for (int at = 0; at <= good.length; at++) {
                byte[] head = java.util.Arrays.copyOf(good, at);
                byte[] tail = java.util.Arrays.copyOfRange(good, at, good.length);
                attack(head);
                attackRaw(java.util.Arrays.copyOf(link, at + 3));
                for (int tag : new int[] {0x05, 0x0D, 0x1D, 0x25, 0x65, 0x75, 0x85, 0xFD}) {
                    for (String length : LENGTHS) {
                        byte[] huge = Hex.bytes(String.format(Locale.ROOT, "%02X %s", tag, length));
                        attack(Station.concat(Station.concat(head, huge), tail));
                    }
                }
            }
        }
        assertThat(sent).isGreaterThan(15_000);
        assertUnharmed();
    }

    @Test
    void deepNesting() {
        for (String head : List.of("01 04 00 04 01 0C", "01 04 00 04 01 0E", "01 04 00 04 01 0F", "01 00 10 08")) {
            for (int depth : new int[] {1, 31, 32, 33, 200, 700}) {
                attack(Hex.bytes(head + "0E".repeat(depth) + "0F".repeat(depth)));
                attack(Hex.bytes(head + "0E".repeat(depth)));
                attack(Hex.bytes(head + "0F".repeat(depth)));
                attack(Hex.bytes(head + "FE 20".repeat(depth) + "FF 20".repeat(depth)));
            }
        }
        assertUnharmed();
    }

    @Test
    void seededRandomChangesOfSeveralOctets() {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        for (int i = 0; i < RANDOM_DATAGRAMS; i++) {
            attack(Damage.any(random));
        }
        assertUnharmed();
    }

    @Test
    void wholeDatagramsOfRandomOctets() {
        Random random = new Random(SEED);
        for (int i = 0; i < 5_000; i++) {
            byte[] noise = new byte[random.nextInt(1600)];
            random.nextBytes(noise);
            attackRaw(noise);
            attack(noise);
        }
        assertUnharmed();
    }
}
