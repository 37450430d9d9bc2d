package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import java.net.InetSocketAddress;
import java.util.Locale;

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

    /** Nothing happens. */
    record Drop(DropReason reason) implements Verdict {}

    /** It was dealt with here; the datagram goes back to the sender. */
    record Answer(Octets datagram, Kind kind) implements Verdict {}

    /** What an answer is. */
    enum Kind {
        /** BVLC-Result with a refusal (ASHRAE 135, J.2.1). */
        LINK_REFUSAL,
        ERROR,
        REJECT,
        ABORT,
        /** A part of a request was taken, or is missing. */
        SEGMENT_ACK,
        /** The answer to a Who-Is. */
        I_AM;

        /** Whether something was refused, which deserves a line in the log. */
        public boolean isRefusal() {
            return this != I_AM && this != SEGMENT_ACK;
        }

        /** The word used in messages: {@code link-refusal}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }
}
