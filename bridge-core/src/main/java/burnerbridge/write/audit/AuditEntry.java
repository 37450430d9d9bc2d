package burnerbridge.write.audit;

import burnerbridge.site.PointId;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.Map;

/** What is to be recorded, without its place in the chain. Immutable; every method gives another one. */
public final class AuditEntry {
    /** Others decide how long some of it is. */
    static final int LONGEST_TEXT = 400;

    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    private final AuditKind kind;
    private final Map<Detail, Object> details;

    private AuditEntry(AuditKind kind, Map<Detail, Object> details) {
        this.kind = kind;
        this.details = Collections.unmodifiableMap(details);
    }

    public static AuditEntry of(AuditKind kind) {
        return new AuditEntry(kind, new EnumMap<>(Detail.class));
    }

    /** Who asked or acted, as far as that is known: {@code bacnet 192.0.2.7:47808}, {@code bridge}, a person's name. */
    public AuditEntry from(String source) {
        return with(Detail.SOURCE, source);
    }

    public AuditEntry at(PointId point) {
        return with(Detail.POINT, point.toString());
    }

    /** The value that the point had before, as text. */
    public AuditEntry previous(String value) {
        return with(Detail.PREVIOUS, value);
    }

    /** The value that was asked for, as text. */
    public AuditEntry asked(String value) {
        return with(Detail.ASKED, value);
    }

    /**
     * The decision or the outcome.
     *
     * @param code of the question that decided, or of the outcome
     * @param sentence for people
     */
    public AuditEntry decided(String code, String sentence) {
        return with(Detail.CODE, code).with(Detail.SENTENCE, sentence);
    }

    /** A sentence for people. */
    public AuditEntry said(String sentence) {
        return with(Detail.SENTENCE, sentence);
    }

    /** Unit, function code and data as they are sent. */
    public AuditEntry bytes(byte[] bytes) {
        return with(Detail.BYTES, HEX.formatHex(bytes));
    }

    /** The value that the registers held afterwards, as text. */
    public AuditEntry readBack(String value) {
        return with(Detail.READ_BACK, value);
    }

    /** The hash of the approval in force. */
    public AuditEntry approval(String hash) {
        return with(Detail.APPROVAL, hash);
    }

    /**
     * Which states of the gate's memory and of the ratchet there were, so that a start sees whether these, or newer ones,
     * are still there. Every {@link AuditKind#STARTED} and every {@link AuditKind#INTENT} should say it.
     */
    public AuditEntry remembering(long memory, long ratchet) {
        return with(Detail.MEMORY, memory).with(Detail.RATCHET, ratchet);
    }

    AuditEntry point(String name) {
        return name.isEmpty() ? this : with(Detail.POINT, name);
    }

    AuditEntry count(long count) {
        return with(Detail.COUNT, count);
    }

    AuditEntry file(String name) {
        return with(Detail.FILE, name);
    }

    AuditEntry remaining(String hash) {
        return with(Detail.REMAINING, hash);
    }

    private AuditEntry with(Detail detail, Object value) {
        Map<Detail, Object> more = new EnumMap<>(Detail.class);
        more.putAll(details);
        more.put(detail, value instanceof String text ? clipped(text) : value);
        return new AuditEntry(kind, more);
    }

    private static String clipped(String text) {
        if (text.length() <= LONGEST_TEXT) {
            return text;
        }
        int end = Character.isHighSurrogate(text.charAt(LONGEST_TEXT - 2)) ? LONGEST_TEXT - 2 : LONGEST_TEXT - 1;
        return text.substring(0, end) + "…";
    }

    public AuditKind kind() {
        return kind;
    }

    /** Texts, and numbers as {@link Long}. */
    Map<Detail, Object> details() {
        return details;
    }

    /** A detail's text; empty where it is not told. */
    String text(Detail detail) {
        Object value = details.get(detail);
        return value == null ? "" : value.toString();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof AuditEntry entry && kind == entry.kind && details.equals(entry.details);
    }

    @Override
    public int hashCode() {
        return details.hashCode();
    }

    @Override
    public String toString() {
        return kind.word() + " " + details;
    }
}
