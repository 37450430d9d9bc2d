package burnerbridge.mqtt.door;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.mqtt.payload.ReplyPayload;
import org.jspecify.annotations.Nullable;

/** An ask that the gate was asked, and what was answered. It belongs to the door's thread, but for what is final. */
final class Asked {
    final AskPoint point;
    final Address address;
    final Octets payload;
    /** The tick until which it is remembered. */
    final long until;
    /** The tick after which nobody waits any more for what became of it. */
    final long waitUntil;

    /** Whether its slot held the same before. */
    boolean renewed;

    @Nullable
    Reply reply;

    /**
     * Where the answer goes, and by what it is known there: two asks of one address are the same.
     *
     * @param id of the payload; empty under MQTT 5
     */
    record Address(String topic, Octets correlation, String id) {}

    Asked(AskPoint point, Address address, Octets payload, long until, long waitUntil) {
        this.point = point;
        this.address = address;
        this.payload = payload;
        this.until = until;
        this.waitUntil = waitUntil;
    }

    boolean isOpen() {
        return reply == null;
    }

    Reply answer(ReplyPayload said, Stamp now) {
        Reply made = new Reply(
                address.topic(), said.json(point.point().definition(), address.id(), now), address.correlation());
        reply = made;
        return made;
    }
}
