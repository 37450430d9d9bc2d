package burnerbridge.web.http;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads the head of one request, however it is cut into pieces (RFC 9112). Stricter than it need be: a line ends with
 * CR LF, no value goes over two lines, and what no head can hold is refused as soon as it is there.
 */
final class HeadReader {
    static final int MOST_OCTETS = 8_192;
    static final int LONGEST_REQUEST_LINE = 1_024;
    static final int MOST_HEADERS = 64;

    private static final String TOKEN = "[!#$%&'*+.^_`|~0-9A-Za-z-]+";
    private static final Pattern REQUEST_LINE = Pattern.compile("(" + TOKEN + ") ([!-~]+) HTTP/([0-9])[.]([0-9])");
    private static final Pattern HEADER = Pattern.compile("(" + TOKEN + "):[ \t]*(.*?)[ \t]*");
    private static final String LINE_END = "\r\n";

    private final byte[] octets = new byte[MOST_OCTETS];
    private int count;
    private boolean lineIsSound;

    /** What a head turns out to be. */
    sealed interface Outcome {
        record Whole(Request request) implements Outcome {}

        record Refused(Answer answer) implements Outcome {}
    }

    /** Takes what is there up to the end of the head, and says what it is once that is known. */
    Optional<Outcome> take(ByteBuffer from) {
        while (from.hasRemaining()) {
            byte octet = from.get();
            if (!canStandHere(octet)) {
                return refused(400, "no request of HTTP/1.1 or 1.0");
            }
            octets[count++] = octet;
            if (octet == '\n') {
                Optional<Outcome> outcome = lineEnded();
                if (outcome.isPresent()) {
                    return outcome;
                }
            }
            if (!lineIsSound && count > LONGEST_REQUEST_LINE) {
                return refused(414, "the request line is longer than " + LONGEST_REQUEST_LINE + " octets");
            }
            if (count == MOST_OCTETS) {
                return refused(431, "the head is longer than " + MOST_OCTETS + " octets");
            }
        }
        return Optional.empty();
    }

    private boolean canStandHere(byte octet) {
        boolean afterReturn = count > 0 && octets[count - 1] == '\r';
        if (afterReturn || octet == '\n') {
            return afterReturn && octet == '\n';
        }
        int value = octet & 0xFF;
        return (value >= 0x20 && value != 0x7F) || value == '\t' || value == '\r';
    }

    private Optional<Outcome> lineEnded() {
        if (!lineIsSound) {
            String line = text(count - LINE_END.length());
            Matcher parts = REQUEST_LINE.matcher(line);
            if (!parts.matches()) {
                return refused(400, "no request of HTTP/1.1 or 1.0");
            }
            if (!parts.group(3).equals("1") || parts.group(4).compareTo("1") > 0) {
                return refused(505, "HTTP/1.1 or 1.0");
            }
            lineIsSound = true;
            return Optional.empty();
        }
        boolean isEmptyLine = octets[count - 3] == '\n';
        return isEmptyLine ? Optional.of(whole(text(count - 2 * LINE_END.length()))) : Optional.empty();
    }

    private String text(int length) {
        return new String(octets, 0, length, StandardCharsets.ISO_8859_1);
    }

    private static Outcome whole(String head) {
        List<String> lines = List.of(head.split(LINE_END, -1));
        Matcher parts = REQUEST_LINE.matcher(lines.get(0));
        if (!parts.matches()) {
            throw new IllegalStateException("was matched before");
        }
        if (lines.size() - 1 > MOST_HEADERS) {
            return new Outcome.Refused(Answer.refusal(431, "more than " + MOST_HEADERS + " header lines"));
        }
        Map<String, List<String>> headers = new HashMap<>();
        for (String line : lines.subList(1, lines.size())) {
            Matcher header = HEADER.matcher(line);
            if (!header.matches()) {
                return new Outcome.Refused(Answer.refusal(400, "a header line that is none"));
            }
            headers.computeIfAbsent(Ascii.lower(header.group(1)), any -> new ArrayList<>())
                    .add(header.group(2));
        }
        int minor = parts.group(4).charAt(0) - '0';
        int hosts = headers.getOrDefault("host", List.of()).size();
        // RFC 9112, 3.2: one of HTTP/1.1 has just one.
        if (hosts > 1 || (minor == 1 && hosts == 0)) {
            return new Outcome.Refused(Answer.refusal(400, "one Host header"));
        }
        return new Outcome.Whole(new Request(parts.group(1), parts.group(2), minor, headers));
    }

    private static Optional<Outcome> refused(int status, String why) {
        return Optional.of(new Outcome.Refused(Answer.refusal(status, why)));
    }
}
