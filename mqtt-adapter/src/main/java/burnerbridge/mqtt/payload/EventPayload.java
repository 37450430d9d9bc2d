package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.table.ControllerLink;

/**
 * What an event topic says:
 * {@code {"id":"…-17","event":"communication-lost","reason":"no-reply","detail":"…","at":"…Z","sentAt":"…Z"}}.
 *
 * @param id never given again, whatever is restarted: it begins with that of the bridge's start
 * @param event started, stopped, communication-lost or communication-back
 * @param reason empty where there is none
 * @param detail for people; empty where there is nothing to say
 * @param at when it happened; {@code sentAt} is when it was said, which is later where no broker was there
 */
public record EventPayload(String id, String event, String reason, String detail, Stamp at) {
    public static final String STARTED = "started";
    public static final String STOPPED = "stopped";
    static final String LOST = "communication-lost";
    static final String BACK = "communication-back";

    public static EventPayload ofBridge(String id, String event, Stamp at) {
        return new EventPayload(id, event, "", "", at);
    }

    public static EventPayload lost(String id, ControllerLink link, Stamp at) {
        return new EventPayload(id, LOST, link.cause().word(), link.detail(), at);
    }

    public static EventPayload back(String id, Stamp at) {
        return new EventPayload(id, BACK, "", "", at);
    }

    /** @param givenUp how many events before it were given up unsaid */
    public String json(Stamp now, long givenUp) {
        return Json.object(json -> {
            json.writeStringProperty("id", id);
            json.writeStringProperty("event", event);
            if (!reason.isEmpty()) {
                json.writeStringProperty("reason", reason);
            }
            if (!detail.isEmpty()) {
                json.writeStringProperty("detail", detail);
            }
            json.writeStringProperty("at", Json.time(at));
            json.writeStringProperty("sentAt", Json.time(now));
            if (!at.believed() || !now.believed()) {
                json.writeStringProperty("clock", "unsure");
            }
            if (givenUp > 0) {
                json.writeNumberProperty("givenUp", givenUp);
            }
        });
    }
}
