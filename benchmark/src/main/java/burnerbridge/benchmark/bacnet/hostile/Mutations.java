package burnerbridge.benchmark.bacnet.hostile;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;

/**
 * Legal datagrams with one to three octets changed, put in or taken out, mostly to what lengths, tags and limits
 * turn on. The length of the link layer is made right again, so that what is wrong lies deeper.
 */
final class Mutations {
    private static final int[] AIMED = {
        0x00, 0x01, 0x05, 0x07, 0x08, 0x0E, 0x0F, 0x1E, 0x1F, 0x3E, 0x3F, 0x65, 0x75, 0x7F, 0x80, 0xF9, 0xFA, 0xFE, 0xFF
    };
    private static final int MOST = 3;
    private static final int LINK_HEADER = 4;

    /** From the network layer on; forms of ASHRAE 135, Annex F, from memory. */
    private static final List<byte[]> LEGAL = List.of(
            hex("0104000501 0C 0C00000005 1955"),
            hex("0104000501 0C 0C02000003 194C 2900"),
            hex("01040275F1 0E 0C00000010 1E0955 09671F"),
            hex("01040275F1 0E 0C02000003 1E09081F"),
            hex("010400050F 05 0912 1C0000000A 2901 393C"),
            hex("010400050F 1C 0912 1C0000000A 2901 393C 4E09554F 5C3F800000"),
            hex("0104000559 0F 0C00000005 1955 3E44433400003F 4908"),
            hex("0104000501 10 0C00000005 1E 0955 2E44428600002F 3908 1F"),
            hex("01040C050100 05 0C 0C00000005 1955"),
            hex("0104020501 1A 0C02000003 1998 3E2101310A3F"),
            hex("0120FFFF00FF 1008 0903 1903"),
            hex("0100 1007 3D07004F4154656D70"),
            hex("0100 1004 0907 1A0202 2E65030102032F"),
            hex("010C00070122 000501 0C 0C00000005 1955"),
            hex("0100 40010005"),
            hex("0100 200F01"));

    private final Random random;

    Mutations(long seed) {
        random = new Random(seed);
    }

    private static byte[] hex(String octets) {
        return HexFormat.of().parseHex(octets.replace(" ", ""));
    }

    void fill(ByteBuffer frame) {
        byte[] message = LEGAL.get(random.nextInt(LEGAL.size()));
        for (int left = 1 + random.nextInt(MOST); left > 0; left--) {
            message = changed(message);
        }
        frame.clear();
        frame.put((byte) 0x81).put((byte) 0x0A).putShort((short) (LINK_HEADER + message.length));
        frame.put(message).flip();
    }

    private byte[] changed(byte[] message) {
        int at = random.nextInt(message.length);
        byte octet = (byte) (random.nextInt(4) == 0 ? random.nextInt(256) : AIMED[random.nextInt(AIMED.length)]);
        return switch (random.nextInt(3)) {
            case 0 -> replaced(message, at, octet);
            case 1 -> with(message, at, octet);
            default -> message.length == 1 ? message : without(message, at);
        };
    }

    private static byte[] replaced(byte[] message, int at, byte octet) {
        byte[] other = message.clone();
        other[at] = octet;
        return other;
    }

    private static byte[] with(byte[] message, int at, byte octet) {
        byte[] longer = Arrays.copyOf(message, message.length + 1);
        System.arraycopy(message, at, longer, at + 1, message.length - at);
        longer[at] = octet;
        return longer;
    }

    private static byte[] without(byte[] message, int at) {
        byte[] shorter = Arrays.copyOf(message, message.length - 1);
        System.arraycopy(message, at + 1, shorter, at, shorter.length - at);
        return shorter;
    }
}
