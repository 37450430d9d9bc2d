package burnerbridge.write.audit;

import java.util.List;

/**
 * What a verification found.
 *
 * @param files that the chain has
 * @param records that were looked at
 * @param first the number of the first record that is there; those before were taken away with their files
 * @param newest the last record
 * @param findings what is wrong, the first hundred
 * @param more how many more there are
 * @param notes what else there is to know, above all what this verification cannot find
 */
public record AuditReport(
        int files,
        long records,
        long first,
        AuditHead newest,
        List<AuditFinding> findings,
        long more,
        List<String> notes) {
    static final int MOST_FINDINGS = 100;

    public AuditReport {
        findings = List.copyOf(findings);
        notes = List.copyOf(notes);
    }

    /** Whether nothing is wrong, as far as can be seen. */
    public boolean isWhole() {
        return findings.isEmpty();
    }
}
