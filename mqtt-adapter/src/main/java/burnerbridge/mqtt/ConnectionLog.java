package burnerbridge.mqtt;

import java.net.URI;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells what becomes of the connection: a change once, its repetitions at debug. */
final class ConnectionLog {
    private static final Logger LOG = LoggerFactory.getLogger(ConnectionLog.class);

    private final String clientId;
    /** What was told of each broker since the last connection, and how many attempts there were. */
    private final Map<URI, String> told = new HashMap<>();

    private int attempts;

    ConnectionLog(String clientId) {
        this.clientId = clientId;
    }

    void opened(URI address, int receiveMaximum) {
        LOG.info(
                "mqtt {}: connected as {} after {} failed attempts; {} messages may be under way at once",
                Rota.text(address),
                clientId,
                attempts,
                receiveMaximum);
        told.clear();
        attempts = 0;
    }

    /** Tells that a connection was lost or could not be made; returns the sentence. */
    String ended(URI address, boolean wasOpen, boolean taken, String detail, long pause) {
        attempts += wasOpen ? 0 : 1;
        String what = taken ? takenText() : (wasOpen ? "connection lost: " : "cannot connect: ") + detail;
        String sentence = Rota.text(address) + ": " + what;
        if (wasOpen || !what.equals(told.put(address, what))) {
            LOG.warn(
                    "mqtt {}; trying again in {} s, then less and less often",
                    sentence,
                    TimeUnit.NANOSECONDS.toSeconds(pause));
        } else {
            LOG.debug("mqtt {}; attempt {}", sentence, attempts);
        }
        return sentence;
    }

    void closed(URI address) {
        LOG.info("mqtt {}: disconnected, stopped", Rota.text(address));
    }

    private String takenText() {
        return "another client connected as " + clientId
                + " and took the connection over: is there a second bridge with this site's name?";
    }
}
