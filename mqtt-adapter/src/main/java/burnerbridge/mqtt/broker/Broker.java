package burnerbridge.mqtt.broker;

import java.net.URI;
import java.util.function.Consumer;

/**
 * An MQTT broker as the sender sees it, whichever version it speaks. Nothing here waits for the network:
 * what happens is told as events, from whatever thread the client library has at hand, so that a consumer
 * only puts them aside.
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
    record Introduction(String clientId, Message will, Access access) {}

    /**
     * A message of quality of service 1.
     *
     * @param payload JSON, sent as UTF-8; empty in a retained message: the broker is to forget the topic
     * @param expirySeconds the message expiry interval (MQTT 5.0, 3.3.2.3.3); 0: it never expires. MQTT
     *     3.1.1 has none, and a message stays
     * @param retained whether the broker keeps it for those who come later
     * @param correlation of the message that this one answers; MQTT 3.1.1 has none
     */
    record Message(String topic, String payload, long expirySeconds, boolean retained, Octets correlation) {
        public Message {
            if (expirySeconds < 0 || expirySeconds > 0xFFFF_FFFFL) {
                throw new IllegalArgumentException(
                        topic + ": an expiry interval is 0 to 4294967295 s (was " + expirySeconds + ")");
            }
        }

        /** One that answers no other. */
        public Message(String topic, String payload, long expirySeconds, boolean retained) {
            this(topic, payload, expirySeconds, retained, Octets.NONE);
        }

        /** A retained one. */
        public Message(String topic, String payload, long expirySeconds) {
            this(topic, payload, expirySeconds, true);
        }
    }

    /** One connection, from the attempt to its end. One thread uses it. */
    interface Session {

        /**
         * Hands a message to the connection; false where it cannot take one now. At most one message of
         * a topic is under way, so that its topic names it in {@link Event.Answered}.
         */
        boolean publish(Message message);

        /**
         * Asks for the messages of topics; {@link Event.Granted} is the answer. A connection that cannot take it is
         * about to end, and tells that.
         */
        void subscribe(String filter, Wanted wanted);

        /** Asks for no more of them; nothing is answered. */
        void unsubscribe(String filter);

        /** Ends the connection in order, so that the broker drops the will. */
        void end();

        /** Drops the connection at once, so that the broker publishes the will. No event follows. */
        void cut();
    }

    /** Which messages of its topics a subscription asks for. */
    enum Wanted {
        /** Those that the broker keeps, and then every one that comes. */
        KEPT_AND_NEW,
        /**
         * Those that come from now on, with what their senders said of keeping them. MQTT 3.1.1 cannot say so: those that
         * are kept come too, told as such, and of a new one nobody knows (3.3.1.3).
         */
        NEW
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

        /** The broker answered a message: taken or refused. MQTT 3.1.1 cannot refuse one. */
        record Answered(Session session, String topic, ReasonCode reason) implements Event {}

        /** The broker answered a subscription: granted or refused. */
        record Granted(Session session, String filter, ReasonCode reason) implements Event {}

        /**
         * A message came that was asked for.
         *
         * @param retained whether the broker had kept it, or is to keep it
         */
        record Arrived(Session session, String topic, Octets payload, boolean retained, Dispatch dispatch)
                implements Event {}

        /**
         * The session is over, or never began.
         *
         * @param reason what the broker said; {@link ReasonCode#NONE} where it said nothing
         * @param detail for people
         */
        record Ended(Session session, ReasonCode reason, String detail) implements Event {}
    }
}
