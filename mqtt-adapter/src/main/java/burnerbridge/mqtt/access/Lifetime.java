package burnerbridge.mqtt.access;

import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * From when to when a certificate holds.
 *
 * @param subject whose it is, as it says itself
 */
public record Lifetime(Path file, String subject, Instant begin, Instant end) {
    private static final Duration WARNED_BEFORE = Duration.ofDays(30);

    static Lifetime of(Path file, X509Certificate certificate) {
        return new Lifetime(
                file,
                certificate.getSubjectX500Principal().getName().replaceAll("\\p{Cc}", "?"),
                certificate.getNotBefore().toInstant(),
                certificate.getNotAfter().toInstant());
    }

    /** What is wrong with it at a moment: it has ended, ends soon, or has not begun; empty where it holds. */
    public Optional<Trouble> trouble(Instant now) {
        Duration left = Duration.between(now, end);
        String what = "the certificate of " + subject + " in " + file;
        if (left.isNegative()) {
            return Optional.of(new Trouble("ended", what + " has ended on " + end));
        }
        if (now.isBefore(begin)) {
            return Optional.of(new Trouble(
                    "early",
                    what + " does not hold before " + begin + ", and the clock here says " + now
                            + ": which is wrong?"));
        }
        return left.compareTo(WARNED_BEFORE) > 0
                ? Optional.empty()
                : Optional.of(new Trouble("ends", what + " ends on " + end + ", in " + left.toDays() + " days"));
    }

    /**
     * Something that people have to look at.
     *
     * @param kind stays the same while the trouble does
     */
    public record Trouble(String kind, String sentence) {}
}
