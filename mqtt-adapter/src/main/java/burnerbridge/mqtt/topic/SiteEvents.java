package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.EventPayload;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.WriteEvent;
import java.util.ArrayList;
import java.util.List;

/** What happens to the bridge and its controllers. One thread uses it. */
final class SiteEvents {
    private final String startId;
    private final EventTeller bridge;
    private final List<EventTeller> controllers = new ArrayList<>();
    /** Whether a controller was lost when it was last heard of, by its ordinal. */
    private final List<Boolean> lost = new ArrayList<>();

    private long count;

    /** @param base what every topic of the site begins with, the last slash included */
    SiteEvents(String base, List<ControllerDefinition> definitions, String startId, Stamp startedAt) {
        this.startId = startId;
        this.bridge = new EventTeller(OwnTopic.events(OwnTopic.ofBridge(base)));
        for (ControllerDefinition controller : definitions) {
            controllers.add(new EventTeller(OwnTopic.events(base + controller.name())));
            lost.add(false);
        }
        bridge.happened(EventPayload.ofBridge(nextId(), EventPayload.STARTED, startedAt));
    }

    EventTeller bridge() {
        return bridge;
    }

    List<EventTeller> controllers() {
        return controllers;
    }

    void stopping(Stamp now) {
        bridge.happened(EventPayload.ofBridge(nextId(), EventPayload.STOPPED, now));
    }

    /** A controller that answers for the first time is not back. */
    void linkChanged(ControllerDefinition controller, ControllerLink link, Stamp now) {
        int ordinal = controller.ordinal();
        boolean down = link.state() == ControllerLink.State.DOWN;
        Stamp at = link.since() == null ? now : link.since();
        if (down && !lost.get(ordinal)) {
            controllers.get(ordinal).happened(EventPayload.lost(nextId(), link, at));
        } else if (!down && lost.get(ordinal)) {
            controllers.get(ordinal).happened(EventPayload.back(nextId(), at));
        }
        lost.set(ordinal, down);
    }

    /** What became of a point that may be written. */
    void happened(ControllerDefinition controller, WriteEvent event, Stamp at) {
        controllers.get(controller.ordinal()).happened(EventPayload.ofWrite(nextId(), event, at));
    }

    private String nextId() {
        return startId + "-" + ++count;
    }
}
