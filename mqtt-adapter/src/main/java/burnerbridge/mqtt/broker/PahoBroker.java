package burnerbridge.mqtt.broker;

import burnerbridge.mqtt.broker.socket.CuttableSockets;
import java.net.URI;
import java.util.List;
import java.util.function.Consumer;
import java.util.logging.Level;
import java.util.logging.Logger;

/** Brokers reached by the Paho clients, plain or encrypted. */
public final class PahoBroker implements Broker {
    private final Protocol protocol;
    /** Held here, because java.util.logging forgets the level of a logger that nobody holds. */
    private final List<Logger> clientLogs = List.of(
            Logger.getLogger("org.eclipse.paho.mqttv5.client"), Logger.getLogger("org.eclipse.paho.client.mqttv3"));

    /** What is spoken. */
    public enum Protocol {
        MQTT_5,
        MQTT_3_1_1
    }

    public PahoBroker(Protocol protocol) {
        this.protocol = protocol;
        // Every lost connection would be a stack trace there; whatever matters comes as an event.
        clientLogs.forEach(log -> log.setLevel(Level.OFF));
    }

    @Override
    public Session open(URI address, Introduction introduction, Consumer<Event> events) {
        try {
            BrokerAddress checked = BrokerAddress.of(address);
            return open(checked, introduction, socketsFor(checked, introduction.access()), events);
        } catch (IllegalArgumentException e) {
            Session none = new NoSession();
            events.accept(new Event.Ended(none, ReasonCode.NONE, String.valueOf(e.getMessage())));
            return none;
        }
    }

    private Session open(
            BrokerAddress address, Introduction introduction, CuttableSockets sockets, Consumer<Event> events) {
        if (protocol == Protocol.MQTT_3_1_1) {
            Mqtt311Session session = new Mqtt311Session(sockets, events);
            session.start(address, introduction);
            return session;
        }
        Mqtt5Session session = new Mqtt5Session(sockets, events);
        session.start(address, introduction);
        return session;
    }

    private static CuttableSockets socketsFor(BrokerAddress address, Access access) {
        return address.encrypted()
                ? CuttableSockets.encrypted(access.keys(), address.host(), address.port())
                : CuttableSockets.plain();
    }

    /** Of an address that cannot be used. */
    private static final class NoSession implements Session {
        @Override
        public boolean publish(Message message) {
            return false;
        }

        @Override
        public void subscribe(String filter, Wanted wanted) {}

        @Override
        public void unsubscribe(String filter) {}

        @Override
        public void end() {}

        @Override
        public void cut() {}
    }
}
