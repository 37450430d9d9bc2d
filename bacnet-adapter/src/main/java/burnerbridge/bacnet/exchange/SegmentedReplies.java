package burnerbridge.bacnet.exchange;

import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.apdu.SegmentACK;
import com.serotonin.bacnet4j.type.constructed.Address;
import java.util.HashMap;
import java.util.Map;

/** The replies on their way in segments, bounded in number and octets. Used by one thread. */
final class SegmentedReplies {
    private static final int MOST_OCTETS = 16 << 20;
    private static final int MOST_PER_PEER = 16;

    private final Sender sender;
    private final Timing timing;
    private final BridgeClock clock;
    private final Map<Key, SegmentedReply> open = new HashMap<>();
    private int octets;

    private record Key(Address peer, byte invokeId) {}

    SegmentedReplies(Sender sender, Timing timing, BridgeClock clock) {
        this.sender = sender;
        this.timing = timing;
        this.clock = clock;
    }

    boolean hasRoomFor(Address peer, int more) {
        long ofPeer =
                open.keySet().stream().filter(key -> key.peer().equals(peer)).count();
        return octets + more <= MOST_OCTETS && ofPeer < MOST_PER_PEER;
    }

    /** Whether a request was repeated whose reply is on its way. */
    boolean isSending(Address peer, byte invokeId) {
        return open.containsKey(new Key(peer, invokeId));
    }

    void start(byte invokeId, SegmentedReply reply) {
        open.put(new Key(reply.to().address(), invokeId), reply);
        octets += reply.octets();
        reply.sendWindow(sender, nextDue());
    }

    private long nextDue() {
        return clock.ticks() + timing.segmentNanos();
    }

    void acknowledged(Address peer, SegmentACK ack) {
        Key key = new Key(peer, ack.getOriginalInvokeId());
        SegmentedReply reply = open.get(key);
        if (reply != null && reply.acknowledge(ack)) {
            if (reply.isWhole()) {
                end(key);
            } else {
                reply.sendWindow(sender, nextDue());
            }
        }
    }

    void aborted(Address peer, byte invokeId) {
        end(new Key(peer, invokeId));
    }

    private void end(Key key) {
        SegmentedReply ended = open.remove(key);
        octets -= ended == null ? 0 : ended.octets();
    }

    /** Sends again what is due and gives up what was sent often enough. */
    void step() {
        long now = clock.ticks();
        for (Map.Entry<Key, SegmentedReply> entry : Map.copyOf(open).entrySet()) {
            if (!entry.getValue().isDue(now)) {
                continue;
            }
            if (entry.getValue().again(timing.retries())) {
                entry.getValue().sendWindow(sender, nextDue());
            } else {
                end(entry.getKey());
            }
        }
    }

    boolean isEmpty() {
        return open.isEmpty();
    }
}
