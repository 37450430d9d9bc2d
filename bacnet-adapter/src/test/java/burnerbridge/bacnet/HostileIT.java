package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.edge.coding.Hex;
import java.time.Duration;
import java.util.ArrayList;
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
    private static final int[] NASTY = {
        0x00, 0x01, 0x02, 0x05, 0x06, 0x07, 0x08, 0x0D, 0x0E, 0x0F, 0x10, 0x1D, 0x1E, 0x1F, 0x2D, 0x2E, 0x2F, 0x3D,
        0x3E, 0x3F, 0x65, 0x75, 0x7F, 0x80, 0x85, 0xF9, 0xFA, 0xFD, 0xFE, 0xFF
    };

    private static final String[] LENGTHS = {
        "FF FF FF FF FA", "FF FF FF FF FF", "FF 80 00 00 00", "FF 7F FF FF FF", "FE FF FF", "FD", "FF 00 00 00 01"
    };

    /** Well-formed datagrams of every kind; what follows the link header. */
    private static final String[] WELL_FORMED = {
        "01 04 00 04 01 0C 0C 00 00 00 05 19 55",
        "01 04 00 04 01 0C 0C 02 00 00 03 19 4C 29 00",
        "01 04 00 04 F1 0E 0C 00 00 00 10 1E 09 55 09 67 1F",
        "01 04 02 75 F1 0E 0C 00 00 00 05 1E 09 08 1F 0C 02 00 00 03 1E 09 08 1F",
        "01 04 00 02 0F 05 09 12 1C 00 00 00 0A 29 01 39 3C",
        "01 04 00 02 0F 05 09 12 1C 00 00 00 0A",
        "01 04 00 04 59 0F 0C 00 00 00 05 19 55 3E 44 43 34 00 00 3F 49 08",
        "01 04 00 04 59 0F 0C 00 00 00 05 19 4D 3E 75 03 00 61 62 3F",
        "01 04 00 04 01 10 0C 00 00 00 05 1E 09 55 2E 44 42 86 00 00 2F 39 08 1F",
        "01 04 0C 04 01 00 05 0C 0C 00 00 00 05 19 55",
        "01 04 00 04 01 11 09 05 19 01",
        "01 04 00 04 01 08 0C 02 00 00 03 19 98 3E 00 3F",
        "01 20 FF FF 00 FF 10 08 09 03 19 03",
        "01 00 10 07 3D 07 00 4F 41 54 65 6D 70",
        "01 00 10 04 09 07 1A 02 02 2E 65 03 01 02 03 2F",
        "01 00 10 00 C4 02 00 00 09 22 05 C4 91 03 21 63",
        "01 0C 00 07 01 22 00 04 01 0C 0C 00 00 00 05 19 55",
        "01 80 01 00 07 00 09",
        "01 00 20 0F 01",
        "01 00 30 01 0C 0C 00 00 00 05 19 55 3E 44 42 90 99 9A 3F",
        "01 00 40 01 00 05",
        "01 00 50 0F 01 91 01 91 1F",
        "01 00 60 0F 09",
        "01 00 71 0F 04",
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
        for (String whole : WELL_FORMED) {
            byte[] good = Hex.bytes(whole);
            for (int at = 0; at < good.length; at++) {
                for (int nasty : NASTY) {
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
        for (String whole : WELL_FORMED) {
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
            attack(changed(Hex.bytes(WELL_FORMED[random.nextInt(WELL_FORMED.length)]), random));
        }
        assertUnharmed();
    }

    private static byte[] changed(byte[] good, Random random) {
        List<Byte> octets = new ArrayList<>();
        for (byte octet : good) {
            octets.add(octet);
        }
        int changes = 1 + random.nextInt(4);
        for (int i = 0; i < changes && !octets.isEmpty(); i++) {
            int at = random.nextInt(octets.size());
            byte octet = (byte) (random.nextBoolean() ? NASTY[random.nextInt(NASTY.length)] : random.nextInt(256));
            switch (random.nextInt(3)) {
                case 0 -> octets.set(at, octet);
                case 1 -> octets.add(at, octet);
                default -> octets.remove(at);
            }
        }
        byte[] bad = new byte[octets.size()];
        for (int i = 0; i < bad.length; i++) {
            bad[i] = octets.get(i);
        }
        return bad;
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
