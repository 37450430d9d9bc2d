package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.Broker.Wanted;
import burnerbridge.mqtt.door.AskDoor;
import burnerbridge.mqtt.watch.BrokerTroubles;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What the sender does for writes: asks and their answers, what became of them, and how permits stand. */
final class WriteDesk implements HealthSource {
    private static final Logger LOG = LoggerFactory.getLogger(WriteDesk.class);

    private final Map<Name, ControllerDefinition> controllers = new LinkedHashMap<>();
    private final Optional<AskDoor> door;
    private final WriteNews news;
    /** Of this connection, the latest filter that the broker keeps us from. */
    private volatile Optional<Trouble> deaf = Optional.empty();

    /** @param door empty where nobody may ask for anything */
    WriteDesk(Site site, Optional<AskDoor> door, WriteNews news) {
        site.controllers().forEach(controller -> controllers.put(controller.name(), controller));
        this.door = door;
        this.news = news;
    }

    /** A connection is there, which knows of no subscription of before. */
    void opened(Session session) {
        deaf = Optional.empty();
        door.ifPresent(open -> open.topics().forEach(topic -> session.subscribe(topic, Wanted.NEW)));
    }

    /** Whether the broker's answer was about one of these. */
    boolean granted(Event.Granted granted, Stamp now) {
        boolean ours = door.isPresent() && door.get().takes(granted.filter());
        if (ours && granted.reason().isFailure()) {
            LOG.warn(
                    "mqtt: the broker does not let {} be read ({}); nobody can ask there",
                    granted.filter(),
                    granted.reason().text());
            deaf = Optional.of(
                    BrokerTroubles.deaf(granted.filter(), granted.reason().text(), now));
        }
        return ours;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        deaf.ifPresent(troubles);
    }

    /** Hands on what the gate told. */
    void tell(Outbox outbox) {
        for (WriteNews.Heard heard : news.events()) {
            ControllerDefinition controller =
                    controllers.get(heard.event().point().controller());
            if (controller != null) {
                outbox.happened(controller, heard.event(), heard.at());
            }
        }
        news.permits().forEach(outbox::permitChanged);
    }

    /** Looks at what was asked, and hands on what is answered. */
    void answer(Outbox outbox, Stamp now) {
        door.ifPresent(open -> open.step(now).forEach(reply -> outbox.reply(reply, now)));
    }
}
