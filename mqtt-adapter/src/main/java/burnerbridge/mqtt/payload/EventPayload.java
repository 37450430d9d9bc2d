package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.WriteEvent;
import java.util.stream.Stream;

/**
 * What an event topic says:
 * {@code {"id":"…-17","event":"communication-lost","reason":"no-reply","detail":"…","at":"…Z","sentAt":"…Z"}}.
 *
 * @param id never given again, whatever is restarted: it begins with that of the bridge's start
 * @param event started, stopped, communication-lost, communication-back, or the word of a {@link WriteEvent}
 * @param point the point of the controller that it is about; empty where it is about all of it
 * @param reason empty where there is none
 * @param detail for people; empty where there is nothing to say
 * @param at when it happened; {@code sentAt} is when it was said, which is later where no broker was there
 */
public record EventPayload(String id, String event, String point, String reason, String detail, Stamp at) {
    public static final String STARTED = "started";
    public static final String STOPPED = "stopped";
    static final String LOST = "communication-lost";
    static final String BACK = "communication-back";

    public static EventPayload ofBridge(String id, String event, Stamp at) {
        return new EventPayload(id, event, "", "", "", at);
    }

    public static EventPayload lost(String id, ControllerLink link, Stamp at) {
        return new EventPayload(id, LOST, "", link.cause().word(), link.detail(), at);
    }

    public static EventPayload back(String id, Stamp at) {
        return new EventPayload(id, BACK, "", "", "", at);
    }

    public static EventPayload ofWrite(String id, WriteEvent event, Stamp at) {
        return new EventPayload(id, word(event.kind()), event.point().point().text(), "", event.sentence(), at);
    }

    private static String word(WriteEvent.Kind kind) {
        return switch (kind) {
            case REFUSED -> "write-refused";
            case WRITTEN -> "written";
            case FAILED -> "write-failed";
            case HELD -> "write-held";
            case LEASE_ENDED -> "lease-ended";
            case SILENCE -> "silence";
            case ASLEEP -> "permit-asleep";
        };
    }

    /** What can happen to the points of a controller that may be written. */
    public static Stream<String> wordsOfWrites() {
        return Stream.of(WriteEvent.Kind.values()).map(EventPayload::word);
    }

    /** @param givenUp how many events before it were given up unsaid */
    public String json(Stamp now, long givenUp) {
        return Json.object(json -> {
            json.writeStringProperty("id", id);
            json.writeStringProperty("event", event);
            if (!point.isEmpty()) {
                json.writeStringProperty("point", point);
            }
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
