package burnerbridge.mqtt.watch;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.Stamp;
import java.util.List;

/** What is wrong with the connection to the broker, in sentences. */
public final class BrokerTroubles {
    public static final String ABOUT = "mqtt";

    /** What the system says where the broker's host is not reached at all. */
    private static final List<String> ON_THE_WAY = List.of(
            "unknown host", "Network is unreachable", "No route to host", "onnect timed out", "no answer within");

    private BrokerTroubles() {}

    /**
     * There is no connection.
     *
     * @param detail what became of the latest attempt, with the broker's address
     */
    public static Trouble notConnected(String detail, Stamp since) {
        boolean onTheWay = ON_THE_WAY.stream().anyMatch(detail::contains);
        return new Trouble(
                onTheWay ? Place.NETWORK : Place.BROKER,
                ABOUT,
                "not connected: " + detail,
                onTheWay
                        ? "the network between here and the broker, its name service, and mqtt.brokers in site.yaml"
                        : "the broker: whether it runs there, and lets this client in",
                since,
                Weight.NOT_READY);
    }

    /** No attempt can be made, since a file that opens the broker's door cannot be used. */
    public static Trouble noAccess(String detail, Stamp since) {
        return new Trouble(
                Place.SITE,
                ABOUT,
                "not connected: " + detail,
                "the files that mqtt names in site.yaml, and their rights",
                since,
                Weight.NOT_READY);
    }

    /** Another client has our identifier. */
    public static Trouble contested(String address, String clientId, Contest contest, Stamp since, boolean connected) {
        String seen = contest.isSaid()
                ? "another client connects to " + address + " as " + clientId + " and takes the connection over, "
                        + contest.times() + " times by now"
                : address + " closes the connection again and again, " + contest.times()
                        + " times by now, as when another client connects as " + clientId;
        return new Trouble(
                Place.BROKER,
                ABOUT,
                seen,
                "a second bridge with this site's name or its mqtt.client-id: only one may connect under it",
                since,
                connected ? Weight.DEGRADED : Weight.NOT_READY);
    }

    /** The broker refuses what we tell. */
    public static Trouble refused(int topics, String example, String reason, Stamp since) {
        return new Trouble(
                Place.BROKER,
                ABOUT,
                "the broker refuses " + example + (topics == 1 ? "" : " and " + (topics - 1) + " more topics") + ": "
                        + reason,
                "the rights of the bridge's user on the broker; documents writes the list that they need",
                since,
                Weight.DEGRADED);
    }

    /** Nobody can ask for writes. */
    public static Trouble deaf(String filter, String reason, Stamp since) {
        return new Trouble(
                Place.BROKER,
                ABOUT,
                "the broker does not let " + filter + " be read, so nobody can ask there: " + reason,
                "the rights of the bridge's user on the broker; documents writes the list that they need",
                since,
                Weight.DEGRADED);
    }

    /** A certificate ends soon, has ended, or has not begun. */
    public static Trouble certificate(String sentence, boolean holds) {
        return new Trouble(
                Place.SITE,
                ABOUT,
                sentence,
                "the files of mqtt.tls in site.yaml; new ones count within a minute",
                null,
                holds ? Weight.NOTICE : Weight.DEGRADED);
    }

    /** A secret is no secret. */
    public static Trouble openSecret(String file) {
        return new Trouble(
                Place.SITE,
                ABOUT,
                "every user of this machine can read " + file,
                "its rights; chmod 600 keeps it",
                null,
                Weight.NOTICE);
    }
}
