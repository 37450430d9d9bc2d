package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.socket.CuttableSockets;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;

/** What the sessions of both versions share: the socket, and that the end is told once. */
final class Connection {
    private final Broker.Session session;
    private final Consumer<Event> events;
    private final CuttableSockets sockets;
    private final AtomicBoolean over = new AtomicBoolean();

    Connection(Broker.Session session, CuttableSockets sockets, Consumer<Event> events) {
        this.session = session;
        this.sockets = sockets;
        this.events = events;
    }

    CuttableSockets sockets() {
        return sockets;
    }

    void opened(int receiveMaximum) {
        events.accept(new Event.Opened(session, receiveMaximum));
    }

    void answered(String topic, ReasonCode reason) {
        events.accept(new Event.Answered(session, topic, reason));
    }

    void granted(String filter, ReasonCode reason) {
        events.accept(new Event.Granted(session, filter, reason));
    }

    void arrived(String topic, byte[] payload, boolean retained, Dispatch dispatch) {
        events.accept(new Event.Arrived(session, topic, Octets.of(payload), retained, dispatch));
    }

    void ended(ReasonCode reason, String detail) {
        if (over.compareAndSet(false, true)) {
            sockets.cut();
            events.accept(new Event.Ended(session, reason, detail));
        }
    }

    /** Closes the socket below the library, which cannot be told to give up while it connects. */
    void cut() {
        over.set(true);
        sockets.cut();
    }
}
