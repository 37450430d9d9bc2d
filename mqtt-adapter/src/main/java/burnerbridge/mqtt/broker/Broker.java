package burnerbridge.mqtt.broker;

import java.net.URI;
import java.util.function.Consumer;

/**
 * An MQTT broker as the sender sees it. Nothing here waits for the network: what happens is told as
 * events, from whatever thread the client library has at hand, so that a consumer only puts them aside.
 */
public interface Broker {

    /**
     * Begins one attempt to connect. Exactly one {@link Event.Ended} follows sooner or later unless the
     * session is cut, after an {@link Event.Opened} or without.
     */
    Session open(URI address, Introduction introduction, Consumer<Event> events);

    /**
     * How the bridge presents itself.
     *
     * @param will what the broker publishes in our name when the connection ends without our saying so
     */
    record Introduction(String clientId, Message will) {}

    /**
     * A retained message of quality of service 1.
     *
     * @param payload JSON, sent as UTF-8
     * @param expirySeconds the message expiry interval (MQTT 5.0, 3.3.2.3.3); 0: it never expires
     */
    record Message(String topic, String payload, long expirySeconds) {
        public Message {
            if (expirySeconds < 0 || expirySeconds > 0xFFFF_FFFFL) {
                throw new IllegalArgumentException(
                        topic + ": an expiry interval is 0 to 4294967295 s (was " + expirySeconds + ")");
            }
        }
    }

    /** One connection, from the attempt to its end. One thread uses it. */
    interface Session {

        /**
         * Hands a message to the connection; false where it cannot take one now. At most one message of
         * a topic is under way, so that its topic names it in {@link Event.Answered}.
         */
        boolean publish(Message message);

        /** Ends the connection in order, so that the broker drops the will. */
        void end();

        /** Drops the connection at once, so that the broker publishes the will. No event follows. */
        void cut();
    }

    /** What a session tells. */
    sealed interface Event {
        Session session();

        /**
         * The broker accepted us.
         *
         * @param receiveMaximum how many messages may be under way at once, 1 to 65535
         */
        record Opened(Session session, int receiveMaximum) implements Event {}

        /** The broker answered a message: taken or refused. */
        record Answered(Session session, String topic, ReasonCode reason) implements Event {}

        /**
         * The session is over, or never began.
         *
         * @param reason what the broker said; {@link ReasonCode#NONE} where it said nothing
         * @param detail for people
         */
        record Ended(Session session, ReasonCode reason, String detail) implements Event {}
    }
}
