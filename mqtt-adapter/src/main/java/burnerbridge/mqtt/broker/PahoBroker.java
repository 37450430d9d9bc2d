package burnerbridge.mqtt.broker;

import java.net.URI;
import java.util.function.Consumer;
import java.util.logging.Level;
import java.util.logging.Logger;

/** Brokers of MQTT 5 reached by the Paho client. */
public final class PahoBroker implements Broker {
    /** Held here, because java.util.logging forgets the level of a logger that nobody holds. */
    private final Logger clientLog = Logger.getLogger("org.eclipse.paho.mqttv5.client");

    public PahoBroker() {
        // Every lost connection would be a stack trace there; whatever matters comes as an event.
        clientLog.setLevel(Level.OFF);
    }

    @Override
    public Session open(URI address, Introduction introduction, Consumer<Event> events) {
        PahoSession session = new PahoSession(events);
        session.start(address, introduction);
        return session;
    }
}
