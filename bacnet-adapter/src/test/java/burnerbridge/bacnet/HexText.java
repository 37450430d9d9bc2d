package burnerbridge.bacnet;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/** What octets in hexadecimal say. */
final class HexText {
    private HexText() {}

    /** All of them as UTF-8, those of a tag included. */
    static String of(String hex) {
        String plain = hex.replaceFirst(" 3F$", "");
        return new String(HexFormat.ofDelimiter(" ").parseHex(plain), StandardCharsets.UTF_8).strip();
    }
}
