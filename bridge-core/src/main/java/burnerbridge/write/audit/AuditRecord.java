package burnerbridge.write.audit;

import burnerbridge.control.JsonLine;
import burnerbridge.model.Stamp;
import burnerbridge.write.store.Fields;
import burnerbridge.write.store.Sha256;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One record of a chain. Its own hash is SHA-256 over its line without {@code ,"hash":"…"} and without the end of the
 * line; that text has the hash of the record before in it.
 *
 * @param at UTC, to the millisecond
 * @param believed whether the clock was believed to be right
 * @param kind a word of {@link AuditKind}, or of a newer program
 * @param details what else it tells, by name, as text
 * @param before the hash of the record before it
 * @param hash as it stands in the line
 * @param computed what the hash must be; another one tells that the line was changed
 */
public record AuditRecord(
        long sequence,
        Instant at,
        boolean believed,
        String kind,
        Map<String, String> details,
        String before,
        String hash,
        String computed) {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);
    private static final String HASH = ",\"hash\":\"";
    private static final int HASH_LENGTH = HASH.length() + 64 + "\"}".length();
    private static final Set<String> FRAME = Set.of("sequence", "at", "clock", "kind", "before", "hash");
    private static final String BELIEVED = "believed";
    private static final String NOT_BELIEVED = "not-believed";

    /** A record's line, with its end, and the head that it makes. */
    @SuppressWarnings("ArrayRecordComponent") // Written at once and kept by nobody.
    record Line(byte[] bytes, AuditHead head) {}

    public AuditRecord {
        details = Collections.unmodifiableMap(new LinkedHashMap<>(details));
    }

    /** The line of an entry behind a head. */
    static Line line(AuditHead before, Stamp now, AuditEntry entry) {
        long sequence = before.sequence() + 1;
        String text = JsonLine.object(json -> {
            json.writeName("sequence");
            json.writeNumber(sequence);
            member(json, "at", TIME.format(now.wall()));
            member(json, "clock", now.believed() ? BELIEVED : NOT_BELIEVED);
            member(json, "kind", entry.kind().word());
            entry.details().forEach((detail, value) -> {
                json.writeName(detail.word());
                JsonLine.write(json, value instanceof Long number ? BigDecimal.valueOf(number) : value);
            });
            member(json, "before", before.hash());
        });
        // Through bytes and back, as characters that are none become question marks there.
        byte[] hashed = text.getBytes(StandardCharsets.UTF_8);
        String hash = Sha256.hex(hashed);
        byte[] end = (HASH + hash + "\"}\n").getBytes(StandardCharsets.US_ASCII);
        byte[] line = new byte[hashed.length - 1 + end.length];
        System.arraycopy(hashed, 0, line, 0, hashed.length - 1);
        System.arraycopy(end, 0, line, hashed.length - 1, end.length);
        return new Line(line, new AuditHead(sequence, hash));
    }

    private static void member(tools.jackson.core.JsonGenerator json, String name, String value) {
        json.writeName(name);
        json.writeString(value);
    }

    /**
     * Reads a line without its end.
     *
     * @throws IllegalArgumentException where it is no record
     */
    static AuditRecord parse(byte[] line) {
        String text = decoded(line);
        int end = text.length() - HASH_LENGTH;
        if (end < 1 || !text.startsWith(HASH, end) || !text.endsWith("\"}")) {
            throw new IllegalArgumentException("it does not end with a hash");
        }
        Fields fields = new Fields(JsonLine.parse(text));
        String hashed = text.substring(0, end) + "}";
        Map<String, String> details = new LinkedHashMap<>();
        fields.members().forEach((name, value) -> {
            if (!FRAME.contains(name)) {
                details.put(name, text(value));
            }
        });
        AuditHead before = new AuditHead(0, fields.text("before"));
        AuditHead own = new AuditHead(fields.whole("sequence"), fields.text("hash"));
        return new AuditRecord(
                own.sequence(),
                instant(fields.text("at")),
                fields.text("clock").equals(BELIEVED),
                fields.text("kind"),
                details,
                before.hash(),
                own.hash(),
                Sha256.hex(hashed.getBytes(StandardCharsets.UTF_8)));
    }

    private static String text(@Nullable Object value) {
        return value instanceof BigDecimal number ? number.toPlainString() : String.valueOf(value);
    }

    private static String decoded(byte[] line) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(line))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new IllegalArgumentException("it is no text in UTF-8", e);
        }
    }

    private static Instant instant(String text) {
        try {
            return Instant.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException("'at' is no time (was " + text + ")", e);
        }
    }

    /** Whether its hash is that of its text. */
    public boolean isAsWritten() {
        return hash.equals(computed);
    }

    public AuditHead head() {
        return new AuditHead(sequence, hash);
    }

    boolean is(AuditKind other) {
        return kind.equals(other.word());
    }

    String text(Detail detail) {
        return details.getOrDefault(detail.word(), "");
    }

    /** For people, on one line, in columns; characters that could do something to a screen are question marks. */
    public String print() {
        String line = String.format(
                Locale.ROOT,
                "%7d %s%s %-14s %-26s %-28s %s",
                sequence,
                TIME.format(at),
                believed ? " " : "?",
                kind,
                text(Detail.SOURCE),
                text(Detail.POINT),
                rest());
        return line.replaceAll("[\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}]", "?").stripTrailing();
    }

    private String rest() {
        StringBuilder rest = new StringBuilder();
        String previous = text(Detail.PREVIOUS);
        String asked = text(Detail.ASKED);
        if (!asked.isEmpty()) {
            rest.append(previous.isEmpty() ? "" : previous + " -> ")
                    .append(asked)
                    .append("  ");
        }
        String code = text(Detail.CODE);
        rest.append(code.isEmpty() ? "" : code + ": ").append(text(Detail.SENTENCE));
        details.forEach((name, value) -> {
            boolean told = name.equals("source")
                    || name.equals("point")
                    || name.equals("code")
                    || name.equals("sentence")
                    || name.equals("asked")
                    || (name.equals("previous") && !asked.isEmpty());
            if (!told) {
                rest.append(rest.isEmpty() ? "" : "  ").append(name).append(' ').append(value);
            }
        });
        return rest.toString();
    }
}
