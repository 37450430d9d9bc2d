package burnerbridge.daemon;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import org.slf4j.LoggerFactory;

/** The log of commands that print a table: it would stand in between, and what it says of the lines is in there. */
final class QuietLog {
    private QuietLog() {}

    /** Says nothing, unless the environment asks for a level. */
    static void set() {
        if (System.getenv("BURNER_BRIDGE_LOG") == null) {
            ((Logger) LoggerFactory.getLogger("burnerbridge")).setLevel(Level.OFF);
        }
    }
}
