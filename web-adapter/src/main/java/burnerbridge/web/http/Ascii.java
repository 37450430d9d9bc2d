package burnerbridge.web.http;

import java.util.Locale;

/** Names in HTTP are of ASCII, whatever the machine's language. */
final class Ascii {
    private Ascii() {}

    static String lower(String text) {
        return text.toLowerCase(Locale.ROOT);
    }
}
