package burnerbridge.mqtt.broker;

import java.io.EOFException;
import java.net.UnknownHostException;

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
        return message == null ? innermost.getClass().getSimpleName() : message;
    }
}
