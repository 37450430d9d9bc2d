package burnerbridge.write.audit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Follows a chain from its first line to its last and tells where it does not hold. Belongs to one thread. */
final class ChainCheck {
    private final Consumer<AuditFinding> found;
    private final Consumer<AuditRecord> records;

    /** The record with the highest number so far, and the hashes that the next may name as the one before. */
    private AuditHead tip = AuditHead.START;

    private Set<String> tipHashes = Set.of(AuditHead.START.hash());
    private long count;
    private boolean fileVanished;
    private long memory;
    private long ratchet;
    private String lastDamage = "";
    private @Nullable AuditRecord first;
    /** Gaps before the first record of a file, which the end of the chain may explain. */
    private final List<Gap> gaps = new ArrayList<>();

    private final Set<String> remaining = new HashSet<>();

    private record Gap(String before, AuditFinding finding) {}

    ChainCheck(Consumer<AuditFinding> found, Consumer<AuditRecord> records) {
        this.found = found;
        this.records = records;
    }

    /**
     * Follows the whole lines of a file.
     *
     * @param from where to begin, behind the end of a line
     * @param firstLine the number of the line there, from 1
     * @return how far whole lines go
     */
    int follow(String file, byte[] content, int from, int firstLine) {
        int start = from;
        int line = firstLine;
        for (int i = from; i < content.length; i++) {
            if (content[i] == '\n') {
                follow(file, line, Arrays.copyOfRange(content, start, i));
                start = i + 1;
                line++;
            }
        }
        return start;
    }

    private void follow(String file, int line, byte[] bytes) {
        count++;
        AuditRecord record;
        try {
            record = AuditRecord.parse(bytes);
        } catch (IllegalArgumentException e) {
            found.accept(new AuditFinding(file, line, "this is no record: " + e.getMessage()));
            return;
        }
        if (!record.isAsWritten()) {
            found.accept(new AuditFinding(
                    file, line, "record " + record.sequence() + " was changed: its text does not match its hash"));
            // Nothing it says is believed, its number least of all.
            tip = new AuditHead(tip.sequence() + 1, record.hash());
            tipHashes = Set.of(record.hash(), record.computed());
        } else {
            place(file, line, record);
            note(record);
        }
        records.accept(record);
    }

    private void place(String file, int line, AuditRecord record) {
        long expected = tip.sequence() + 1;
        if (record.sequence() < expected) {
            found.accept(new AuditFinding(
                    file,
                    line,
                    "record " + record.sequence() + " stands behind record " + tip.sequence()
                            + ": it was put in, or moved here"));
            return;
        } else if (record.sequence() > expected) {
            gap(file, line, expected, record);
        } else if (!tipHashes.contains(record.before())) {
            found.accept(new AuditFinding(
                    file,
                    line,
                    "record " + record.sequence() + " does not follow from record " + tip.sequence()
                            + " as it stands: one of the two was put in the place of another"));
        }
        first = first == null && count == 1 ? record : first;
        tip = record.head();
        tipHashes = Set.of(record.hash());
    }

    private void gap(String file, int line, long expected, AuditRecord record) {
        String missing = missing(expected, record.sequence() - 1) + " missing here";
        if (line > 1) {
            found.accept(new AuditFinding(file, line, missing));
        } else {
            String sentence = missing + ", and no record tells that their file was taken away";
            gaps.add(new Gap(record.before(), new AuditFinding(file, line, sentence)));
        }
    }

    /** A file was taken away while the chain was read: what was in it, and what it told of others, is not missed. */
    void fileVanished() {
        fileVanished = true;
    }

    private static String missing(long first, long last) {
        return first == last ? "record " + first + " is" : "records " + first + " to " + last + " are";
    }

    private void note(AuditRecord record) {
        memory = Math.max(memory, number(record, Detail.MEMORY));
        ratchet = Math.max(ratchet, number(record, Detail.RATCHET));
        if (record.is(AuditKind.DROPPED)) {
            remaining.add(record.text(Detail.REMAINING));
        }
        if (record.is(AuditKind.DAMAGED)) {
            lastDamage = record.text(Detail.SENTENCE);
        }
    }

    private static long number(AuditRecord record, Detail detail) {
        String text = record.text(detail);
        return text.matches("\\d{1,18}") ? Long.parseLong(text) : 0;
    }

    /** To be called once, behind the last file. */
    void end() {
        if (fileVanished) {
            return;
        }
        gaps.stream().filter(gap -> !remaining.contains(gap.before())).forEach(gap -> found.accept(gap.finding()));
    }

    /** The record with the highest number. */
    AuditHead tip() {
        return tip;
    }

    /** The number of the first record that is there. */
    long first() {
        return first == null ? 1 : first.sequence();
    }

    long count() {
        return count;
    }

    /** The highest state of the gate's memory that a record names; 0 where none does. */
    long memory() {
        return memory;
    }

    long ratchet() {
        return ratchet;
    }

    /** What the last record of a damage says. */
    String lastDamage() {
        return lastDamage;
    }
}
