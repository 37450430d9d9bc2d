package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;

/** A request of which some segments are there, in order. */
final class Assembly {
    private final Segment first;
    private final OctetWriter data = new OctetWriter();
    private final int window;
    private int taken;
    private int sinceAcknowledged;
    private long lastAt;

    Assembly(Segment first) {
        this.first = first;
        this.window = Math.min(first.proposedWindow(), SegmentLimits.WIDEST_WINDOW);
    }

    boolean isNext(Segment segment) {
        return segment.sequenceNumber() == taken;
    }

    boolean isFull() {
        return taken >= SegmentLimits.MOST_SEGMENTS;
    }

    void take(Segment segment, long now) {
        data.octets(segment.data());
        taken++;
        sinceAcknowledged++;
        lastAt = now;
    }

    /** The first is acknowledged at once, then each window. */
    boolean isToBeAcknowledged() {
        return taken == 1 || sinceAcknowledged >= window;
    }

    /** Segment-ACK-PDU of a server (20.1.6). */
    Octets acknowledgement(boolean negative) {
        sinceAcknowledged = 0;
        return Octets.of(negative ? 0x43 : 0x41, first.invokeId(), taken - 1, window);
    }

    boolean isGivenUp(long now) {
        return now - lastAt > SegmentLimits.PATIENCE_NANOS;
    }

    /** The whole message of the network layer. */
    Octets whole() {
        return new OctetWriter()
                .octets(first.before())
                .octets(first.unsegmentedHeader())
                .octets(data.done())
                .done();
    }
}
