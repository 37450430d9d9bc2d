package burnerbridge.write.audit;

/**
 * Something that is wrong with a chain.
 *
 * @param file where it shows; empty where it is the chain as a whole
 * @param line of that file, from 1; 0 where it is all of it
 * @param sentence what is wrong, for people
 */
public record AuditFinding(String file, int line, String sentence) {

    /** {@code audit-000001.jsonl:12: record 12 was changed: …}. */
    @Override
    public String toString() {
        String place = file.isEmpty() ? "" : line == 0 ? file + ": " : file + ":" + line + ": ";
        return place + sentence;
    }
}
