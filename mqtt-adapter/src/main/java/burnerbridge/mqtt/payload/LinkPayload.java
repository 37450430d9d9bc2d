package burnerbridge.mqtt.payload;

import burnerbridge.model.Stamp;
import burnerbridge.table.ControllerLink;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/**
 * What the link topics say:
 * {@code {"state":"down","reason":"no-reply","detail":"…","since":"…Z","sentAt":"…Z","validFor":60,"sequence":2}}.
 *
 * <p>{@code state} is up, down or, for a controller that was not asked yet, unknown; {@code reason} and
 * {@code detail} are left out where there is nothing to say. These messages hold for a minute and are
 * repeated, so that an {@code up} does not outlive bridge and broker together. Only the bridge's own
 * {@code down} holds until the bridge is there again: {@code stopped}, or {@code connection-lost}, which
 * the broker says in its name and which therefore has no time. {@code start} tells one start of the
 * bridge from the next, at which every {@code sequence} begins again; {@code audit} is the newest record of the audit of
 * writes, its number and its hash, where anything may be written.
 */
public final class LinkPayload {
    /** Seconds. */
    static final long VALID_FOR = 60;

    public static final String WILL = Json.object(json -> {
        json.writeStringProperty("state", "down");
        json.writeStringProperty("reason", "connection-lost");
    });

    private LinkPayload() {}

    public static Telling controller(ControllerLink link, Stamp now, long sequence) {
        return new Telling(
                Json.object(json -> {
                    json.writeStringProperty("state", link.state().word());
                    if (link.cause() != ControllerLink.Cause.NONE) {
                        json.writeStringProperty("reason", link.cause().word());
                    }
                    if (!link.detail().isEmpty()) {
                        json.writeStringProperty("detail", link.detail());
                    }
                    times(json, link.since(), now);
                    json.writeNumberProperty("validFor", VALID_FOR);
                    json.writeNumberProperty("sequence", sequence);
                }),
                VALID_FOR);
    }

    public static Telling bridgeUp(String startId, Stamp startedAt, Optional<String> audit, Stamp now, long sequence) {
        return new Telling(
                Json.object(json -> {
                    json.writeStringProperty("state", "up");
                    json.writeStringProperty("start", startId);
                    audit.ifPresent(head -> json.writeStringProperty("audit", head));
                    times(json, startedAt, now);
                    json.writeNumberProperty("validFor", VALID_FOR);
                    json.writeNumberProperty("sequence", sequence);
                }),
                VALID_FOR);
    }

    public static Telling bridgeStopped(
            String startId, Stamp stoppedAt, Optional<String> audit, Stamp now, long sequence) {
        return new Telling(
                Json.object(json -> {
                    json.writeStringProperty("state", "down");
                    json.writeStringProperty("reason", "stopped");
                    json.writeStringProperty("start", startId);
                    audit.ifPresent(head -> json.writeStringProperty("audit", head));
                    times(json, stoppedAt, now);
                    json.writeNumberProperty("sequence", sequence);
                }),
                0);
    }

    private static void times(JsonGenerator json, @Nullable Stamp since, Stamp now) {
        if (since != null) {
            json.writeStringProperty("since", Json.time(since));
        }
        json.writeStringProperty("sentAt", Json.time(now));
        if (!now.believed() || (since != null && !since.believed())) {
            json.writeStringProperty("clock", "unsure");
        }
    }
}
