package burnerbridge.bacnet.hostile;

import burnerbridge.bacnet.edge.coding.Hex;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Legal frames, and how they are damaged where it hurts. */
final class Damage {
    static final int[] NASTY = {
        0x00, 0x01, 0x02, 0x05, 0x06, 0x07, 0x08, 0x0D, 0x0E, 0x0F, 0x10, 0x1D, 0x1E, 0x1F, 0x2D, 0x2E, 0x2F, 0x3D,
        0x3E, 0x3F, 0x65, 0x75, 0x7F, 0x80, 0x85, 0xF9, 0xFA, 0xFD, 0xFE, 0xFF
    };

    /** Well-formed datagrams of every kind; what follows the link header. */
    static final String[] WELL_FORMED = {
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

    private Damage() {}

    /** What follows the link header of one of them, with one to four octets changed, added or missing. */
    static byte[] any(Random random) {
        return changed(Hex.bytes(WELL_FORMED[random.nextInt(WELL_FORMED.length)]), random);
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
}
