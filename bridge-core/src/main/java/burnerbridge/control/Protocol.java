package burnerbridge.control;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;

/**
 * What both ends of the control socket hold to. Lines of UTF-8, each one JSON object, ended by a line feed.
 * The bridge greets with {@code {"program":"burner-bridge","protocol":1,…}}; a request is one line,
 * {@code {"ask":"values",…}}; its reply any number of lines, the last with {@code "end"}, or one with
 * {@code "error"}, after which the bridge hangs up.
 */
final class Protocol {
    static final String PROGRAM = "burner-bridge";
    static final int VERSION = 1;
    /** Bytes. */
    static final int LONGEST_REQUEST = 64 * 1024;
    /** Bytes of one line; a reply has any number of them. */
    static final int LONGEST_REPLY_LINE = 1024 * 1024;

    /** How long a client waits for the bridge to take or to give something. */
    static final Duration PATIENCE = Duration.ofSeconds(10);

    /** Bytes of {@code sun_path} without its NUL (Linux, unix(7)). */
    private static final int LONGEST_PATH = 107;

    private Protocol() {}

    static void checkLength(Path socket) throws IOException {
        int length = socket.toString().getBytes(StandardCharsets.UTF_8).length;
        if (length > LONGEST_PATH) {
            throw new IOException(
                    "the path of the control socket has " + length + " bytes, and the system takes at most "
                            + LONGEST_PATH + "; say a shorter state folder with --state (" + socket + ")");
        }
    }
}
