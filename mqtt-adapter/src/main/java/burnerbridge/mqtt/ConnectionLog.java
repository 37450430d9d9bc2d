package burnerbridge.mqtt;

import burnerbridge.mqtt.watch.Contest;
import burnerbridge.mqtt.watch.Ending;
import burnerbridge.site.MqttSettings;
import java.net.URI;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.slf4j.event.Level;

/** Tells what becomes of the connection: a change once, its repetitions at debug. */
final class ConnectionLog {
    private static final Logger LOG = LoggerFactory.getLogger(ConnectionLog.class);

    private static final List<String> BROKEN_OFF = List.of("closed the connection", "Connection reset", "Broken pipe");

    private final String clientId;
    private final Contest contest;
    /** What was told of each broker since the last connection, and how many attempts there were. */
    private final Map<URI, String> told = new HashMap<>();

    private int attempts;
    private int shortOnes;
    /** Whether the latest endings were another client's doing, and were told. */
    private boolean contested;

    /** @param contest told of each ending before this */
    ConnectionLog(String clientId, Contest contest) {
        this.clientId = clientId;
        this.contest = contest;
    }

    void opened(URI address, int receiveMaximum) {
        LOG.atLevel(contested ? Level.DEBUG : Level.INFO)
                .log(
                        "mqtt {}: connected as {}; failed attempts before: {}, the broker takes {} messages at once",
                        Rota.text(address),
                        clientId,
                        attempts,
                        receiveMaximum);
        told.clear();
        attempts = 0;
    }

    /** Tells that a connection was lost or could not be made; returns the sentence. */
    String ended(URI address, Ending ending, String detail, long pause) {
        boolean again = contested;
        contested = ending == Ending.TAKEN || ending == Ending.CONTESTED || contested && ending == Ending.NOT_OPENED;
        attempts += ending == Ending.NOT_OPENED ? 1 : 0;
        shortOnes = ending == Ending.SOON_LOST ? shortOnes + 1 : 0;
        String what = text(ending, detail) + hint(address, ending, detail);
        String sentence = Rota.text(address) + ": " + what;
        if (ending == Ending.RENEWED) {
            LOG.info("mqtt {}", sentence);
        } else if (again && contested && ending != Ending.NOT_OPENED) {
            LOG.debug("mqtt {}; trying again in {} s", sentence, TimeUnit.NANOSECONDS.toSeconds(pause));
        } else if (ending != Ending.NOT_OPENED || !what.equals(told.put(address, what))) {
            LOG.warn("mqtt {}; trying again in {} s", sentence, TimeUnit.NANOSECONDS.toSeconds(pause));
        } else {
            LOG.debug("mqtt {}; attempt {}", sentence, attempts);
        }
        return sentence;
    }

    /** No other client has taken the connection for so long that the matter is over. */
    void undisputed(URI address) {
        contested = false;
        LOG.info(
                "mqtt {}: no other client connected as {} for {} min",
                Rota.text(address),
                clientId,
                Contest.OVER_AFTER.toMinutes());
    }

    void closed(URI address) {
        LOG.info("mqtt {}: disconnected, stopped", Rota.text(address));
    }

    /** What a broker says of a certificate that it misses is lost when it closes before it is read. */
    private static String hint(URI address, Ending ending, String detail) {
        boolean encrypted = MqttSettings.isEncrypted(address);
        return ending == Ending.NOT_OPENED && encrypted && isBrokenOff(detail)
                ? "; a broker that wants a certificate of ours, or that is not encrypted, ends a connection like this"
                : "";
    }

    /** Not every broker says that another client took a connection over; what it looks like is said then. */
    private String text(Ending ending, String detail) {
        return switch (ending) {
            case NOT_OPENED -> "cannot connect: " + detail;
            case LOST -> "connection lost: " + detail;
            case SOON_LOST ->
                "connection lost soon: " + detail + (shortOnes < Contest.MANY ? "" : manyInARow(shortOnes));
            case CONTESTED -> "connection lost again: " + detail + manyInARow(contest.times());
            case TAKEN ->
                "another client connected as " + clientId
                        + " and took the connection over: is there a second bridge with this site's name?";
            case RENEWED -> "disconnected, to connect with the renewed certificates or password";
        };
    }

    private String manyInARow(int count) {
        return "; " + count + " in a row, as when another client connects as " + clientId;
    }

    /** Whether an ending is one of those with which a broker says nothing. */
    static boolean isBrokenOff(String detail) {
        return BROKEN_OFF.stream().anyMatch(detail::contains);
    }
}
