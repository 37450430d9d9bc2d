package burnerbridge.write.audit;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The newest record of a chain. Kept elsewhere, it tells later whether the chain still leads there.
 *
 * @param sequence the record's number, from 1; 0 before the first
 * @param hash the record's own hash, 64 digits; all 0 before the first
 */
public record AuditHead(long sequence, String hash) {
    private static final Pattern HASH = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern FORM = Pattern.compile("(\\d{1,18}):([0-9a-f]{64})");

    /** Of a chain without records. */
    public static final AuditHead START = new AuditHead(0, "0".repeat(64));

    public AuditHead {
        if (sequence < 0 || !HASH.matcher(hash).matches()) {
            throw new IllegalArgumentException(
                    "a head is a number of 0 or more and 64 digits of 0 to f (was " + sequence + ", " + hash + ")");
        }
    }

    /** Reads what {@link #toString} writes; empty for anything else. */
    public static Optional<AuditHead> parse(String text) {
        Matcher form = FORM.matcher(text);
        return form.matches()
                ? Optional.of(new AuditHead(Long.parseLong(form.group(1)), form.group(2)))
                : Optional.empty();
    }

    /** {@code 57:e3b0…}. */
    @Override
    public String toString() {
        return sequence + ":" + hash;
    }
}
