package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.Peer;
import java.net.InetSocketAddress;

/** What becomes of a datagram. */
public sealed interface Verdict {

    /**
     * It may go on to the library.
     *
     * @param networkMessage the octets from the network layer's version on
     * @param source the BACnet/IP station it came from, which for a forwarded one is not the sender
     * @param first whether it goes before requests: it answers us or tells of routers
     */
    record Pass(Octets networkMessage, InetSocketAddress source, boolean first) implements Verdict {}

    /** It is a part of a request, to be put together by {@link Assemblies}. */
    record Part(Segment segment) implements Verdict {}

    /** What a broadcast management device says to what we asked of it (J.2.1); nobody else asks for results. */
    record Result(int code) implements Verdict {}

    /** An I-Am with our own device instance, of somebody or our own by a way around. */
    record OwnInstance(Peer from) implements Verdict {}

    /** Nothing happens. */
    record Drop(DropReason reason) implements Verdict {}

    /** It was dealt with here; the datagram goes back to the sender. */
    record Answer(Octets datagram, AnswerKind kind) implements Verdict {}
}
