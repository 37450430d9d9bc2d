package burnerbridge.bacnet.edge.coding;

import java.util.HexFormat;
import java.util.Locale;

/** Octets from published text. */
public final class Hex {
    private Hex() {}

    /** {@code 00 04 01 0C}; spaces do not matter. */
    public static byte[] bytes(String hex) {
        return HexFormat.of().parseHex(hex.replace(" ", "").toLowerCase(Locale.ROOT));
    }

    public static Octets octets(String hex) {
        byte[] bytes = bytes(hex);
        return Octets.copyOf(bytes, bytes.length);
    }
}
