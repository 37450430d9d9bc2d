package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import java.net.InetSocketAddress;
import java.util.Optional;

/**
 * One segment of a confirmed request (ASHRAE 135, 20.1.2).
 *
 * @param header of the network layer, with the station that asks
 * @param before the octets of that header
 * @param apdu at least six octets
 */
record Segment(InetSocketAddress source, NetworkHeader header, Octets before, Octets apdu) {
    private static final int HEADER = 6;
    private static final int MORE_FOLLOWS = 0x04;
    private static final int SEGMENT_BITS = 0x0C;

    /** Whose request it belongs to. */
    record Key(InetSocketAddress source, Optional<NetworkHeader.Remote> remote, int invokeId) {}

    Key key() {
        return new Key(source, header.remote(), invokeId());
    }

    int invokeId() {
        return apdu.at(2);
    }

    int sequenceNumber() {
        return apdu.at(3);
    }

    int proposedWindow() {
        return apdu.at(4);
    }

    boolean moreFollows() {
        return (apdu.at(0) & MORE_FOLLOWS) != 0;
    }

    Octets data() {
        return apdu.from(HEADER);
    }

    /** The first octets of the same request as it would be in one piece. */
    Octets unsegmentedHeader() {
        return Octets.of(apdu.at(0) & ~SEGMENT_BITS, apdu.at(1), invokeId(), apdu.at(5));
    }
}
