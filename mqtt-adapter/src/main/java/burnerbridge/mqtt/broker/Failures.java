package burnerbridge.mqtt.broker;

import java.io.EOFException;
import java.net.UnknownHostException;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertPathValidatorException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;

/** What went wrong, in words for a log line. */
final class Failures {
    private Failures() {}

    /** The innermost cause says it best: the library wraps it in its own general words. */
    static String text(Throwable failure) {
        Throwable innermost = failure;
        while (innermost.getCause() != null) {
            innermost = innermost.getCause();
        }
        String message = innermost.getMessage();
        if (innermost instanceof EOFException) {
            return "the broker closed the connection";
        }
        if (innermost instanceof UnknownHostException) {
            return "unknown host " + message;
        }
        return message == null ? innermost.getClass().getSimpleName() : named(innermost, message);
    }

    /** What is wrong with an encrypted connection, in words that name what to look at. */
    private static String named(Throwable failure, String message) {
        if (failure instanceof CertPathBuilderException) {
            return "the broker's certificate is not from an authority that is trusted (tls, ca): " + message;
        }
        if (failure instanceof CertPathValidatorException) {
            return "the broker's certificate is not believed: " + message;
        }
        if (failure instanceof CertificateExpiredException) {
            return "the broker's certificate has ended: " + message;
        }
        if (failure instanceof CertificateNotYetValidException) {
            return "the broker's certificate does not hold yet; is the clock of this machine right? " + message;
        }
        if (failure instanceof CertificateException) {
            return "the broker's certificate is for another host: " + message;
        }
        if (message.contains("Unsupported or unrecognized SSL message")) {
            return "the broker does not speak TLS on this port";
        }
        if (message.contains("Received fatal alert")) {
            return "the broker refuses the encrypted connection, most often because of our certificate: " + message;
        }
        return message;
    }
}
