package burnerbridge.web.http;

import burnerbridge.model.Stamp;
import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What is answered. The connection ends with it.
 *
 * @param contentType of the body
 * @param headers whole lines beside those that every answer has
 */
@SuppressWarnings("ArrayRecordComponent") // Made once and only sent.
public record Answer(int status, String contentType, byte[] body, List<String> headers) {
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern(
                    "EEE, dd MMM uuuu HH:mm:ss 'GMT'", Locale.ENGLISH)
            .withZone(ZoneOffset.UTC);

    private static final Map<Integer, String> REASONS = Map.ofEntries(
            Map.entry(200, "OK"),
            Map.entry(400, "Bad Request"),
            Map.entry(401, "Unauthorized"),
            Map.entry(404, "Not Found"),
            Map.entry(405, "Method Not Allowed"),
            Map.entry(408, "Request Timeout"),
            Map.entry(413, "Content Too Large"),
            Map.entry(414, "URI Too Long"),
            Map.entry(421, "Misdirected Request"),
            Map.entry(429, "Too Many Requests"),
            Map.entry(431, "Request Header Fields Too Large"),
            Map.entry(500, "Internal Server Error"),
            Map.entry(503, "Service Unavailable"),
            Map.entry(505, "HTTP Version Not Supported"));

    public Answer {
        if (!REASONS.containsKey(status)) {
            throw new IllegalArgumentException("a status that is not among those used: " + status);
        }
        headers = List.copyOf(headers);
    }

    public static Answer text(int status, String contentType, String body) {
        return new Answer(status, contentType, body.getBytes(StandardCharsets.UTF_8), List.of());
    }

    /** An answer that is no page, with a line that says why. */
    public static Answer refusal(int status, String why) {
        return text(status, "text/plain; charset=utf-8", why + "\n");
    }

    /** The same with one header more. */
    public Answer with(String name, String value) {
        List<String> more = new ArrayList<>(headers);
        more.add(name + ": " + value);
        return new Answer(status, contentType, body, more);
    }

    /**
     * All that is sent.
     *
     * @param withBody false where only the head is wanted
     */
    byte[] octets(boolean withBody, Stamp now) {
        StringBuilder head = new StringBuilder("HTTP/1.1 " + status + " " + REASONS.get(status) + "\r\n");
        // RFC 9110, 6.6.1: who has no clock sends none.
        if (now.believed()) {
            line(head, "Date: " + DATE.format(now.wall()));
        }
        line(head, "Content-Type: " + contentType);
        line(head, "Content-Length: " + body.length);
        line(head, "Cache-Control: no-store");
        line(head, "X-Content-Type-Options: nosniff");
        line(head, "Content-Security-Policy: default-src 'none'");
        headers.forEach(header -> line(head, header));
        line(head, "Connection: close");
        line(head, "");
        byte[] start = head.toString().getBytes(StandardCharsets.ISO_8859_1);
        byte[] all = new byte[start.length + (withBody ? body.length : 0)];
        System.arraycopy(start, 0, all, 0, start.length);
        System.arraycopy(body, 0, all, start.length, all.length - start.length);
        return all;
    }

    private static void line(StringBuilder head, String line) {
        head.append(line).append("\r\n");
    }
}
