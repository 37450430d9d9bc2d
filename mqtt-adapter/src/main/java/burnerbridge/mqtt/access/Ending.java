package burnerbridge.mqtt.access;

import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.time.Instant;

/**
 * When a certificate ends.
 *
 * @param subject whose it is, as it says itself
 */
public record Ending(Path file, String subject, Instant at) {

    static Ending of(Path file, X509Certificate certificate) {
        return new Ending(
                file,
                certificate.getSubjectX500Principal().getName(),
                certificate.getNotAfter().toInstant());
    }
}
