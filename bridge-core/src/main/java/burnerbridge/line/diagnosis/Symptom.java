package burnerbridge.line.diagnosis;

import burnerbridge.line.Fault;
import burnerbridge.line.Heard;
import burnerbridge.line.LineCounts;
import burnerbridge.line.diagnosis.Finding.Kind;
import java.util.function.ToLongFunction;

/** What a counter alone shows once it is high enough, on the line as a whole or on some units of it. */
enum Symptom {
    ECHO(Kind.ECHO, counts -> counts.broken(Fault.ECHO), "our own bytes came back instead of a reply, or before it"),
    FRAMING(Kind.FRAMING, counts -> counts.broken(Fault.FRAMING), "bytes came that are no frame of a reply"),
    STRAY_BYTES(
            Kind.STRAY_BYTES,
            counts -> counts.broken(Fault.STRAY_BYTES) + counts.heard(Heard.NOISE),
            "stray bytes came before or between replies"),
    BEGINNING_LOST(
            Kind.BEGINNING_LOST,
            counts -> counts.broken(Fault.BEGINNING_LOST),
            "a reply came without its first bytes, or with wrong ones"),
    CHECKSUM(
            Kind.CHECKSUM,
            counts -> counts.broken(Fault.CHECKSUM) + counts.broken(Fault.OVERLAID),
            "the checksum of a reply was wrong"),
    LENGTH(
            Kind.LENGTH,
            counts -> counts.broken(Fault.LENGTH),
            "a reply was cut off or of another length than asked for"),
    OTHERS_REPLY(
            Kind.OTHERS_REPLY,
            counts -> counts.broken(Fault.UNIT) + counts.broken(Fault.FUNCTION) + counts.heard(Heard.OTHERS_REPLY),
            "a whole reply came that belongs to another request"),
    LATE_REPLY(Kind.LATE_REPLY, counts -> counts.heard(Heard.LATE_REPLY), "a reply came after its time"),
    ENDED(Kind.ENDED, counts -> counts.broken(Fault.ENDED), "the connection ended instead of a reply");

    private static final int LEAST = 5;
    private static final int LEAST_PERCENT = 2;

    private final Kind kind;
    private final ToLongFunction<LineCounts> count;
    private final String words;

    Symptom(Kind kind, ToLongFunction<LineCounts> count, String words) {
        this.kind = kind;
        this.count = count;
        this.words = words;
    }

    Kind kind() {
        return kind;
    }

    /** Whether it is more than what now and then happens on any line. */
    boolean isIn(LineCounts counts) {
        return isMuch(count.applyAsLong(counts), counts);
    }

    static boolean isMuch(long count, LineCounts counts) {
        return count >= LEAST && count * 100 >= counts.requests() * LEAST_PERCENT;
    }

    /** What happened, on most kinds of line. */
    String words() {
        return words;
    }

    /** For people: {@code 7 times on 40 requests in 60 s}. */
    String times(Change.Part part) {
        return times(count.applyAsLong(part.counts()), part);
    }

    static String times(long count, Change.Part part) {
        return count + " times on " + part.counts().requests() + " requests in " + part.words();
    }
}
