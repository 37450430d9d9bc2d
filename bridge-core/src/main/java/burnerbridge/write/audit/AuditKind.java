package burnerbridge.write.audit;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a record tells. The list is closed; a reader that meets another word has an older program. */
public enum AuditKind {
    /** A value was asked for, and nothing is decided yet. */
    ASKED,
    /** An ask passed every question and is in its slot. */
    ADMITTED,
    /** A question of the gate said no. */
    REFUSED,
    /** So many more refusals of one kind since the record before of that kind. */
    REFUSALS,
    /** What is about to be sent; it is on the disk before the first byte leaves. */
    INTENT,
    /** What became of that: accepted, refused, unknown or not sent, and what was read back. */
    OUTCOME,
    /** A lease began or ended; that an equal ask renewed it is not told. */
    LEASE,
    /** A winner was refused and stays in its slot until the reason has passed. */
    HELD,
    /** The last lease of a point has ended, and its silence action acts. */
    SILENCE,
    /** A permit fell asleep. */
    ASLEEP,
    /** A permit woke up. */
    AWAKE,
    /** A value changed in a permitted register though nobody here wrote it. */
    ANOTHER_WRITER,
    /** A person approved. */
    APPROVAL,
    /** What was approved is not what is there, or an approval cannot be read. */
    LAPSED,
    /** A person withdrew an approval. */
    WITHDRAWAL,
    /** The gate began its work. */
    STARTED,
    /** The gate ended in order. */
    ENDED,
    /** The disk has no room, or has it again. */
    ROOM,
    /** First in its file: which file was before. */
    CONTINUED,
    /** The oldest file is taken away now: with which hash the chain that remains begins. */
    DROPPED,
    /** What stood behind the last whole record when the chain was opened, and was cut off. */
    TORN,
    /** The chain was not whole when it was opened. */
    DAMAGED;

    /** The word in a record: {@code another-writer}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public static Optional<AuditKind> ofWord(String word) {
        return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
    }
}
