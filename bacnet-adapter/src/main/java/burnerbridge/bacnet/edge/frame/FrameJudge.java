package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.ApduJudge;
import burnerbridge.bacnet.edge.service.ApduVerdict;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.ObjectDirectory;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.bacnet.edge.service.WriteDoor;
import burnerbridge.model.BridgeClock;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;

/**
 * Judges datagrams layer by layer: BACnet/IP (ASHRAE 135, Annex J), network, application, tags, service and
 * its parameters. Nothing passes that was not understood whole. A datagram to everybody is never answered.
 * Holds no state; safe for any number of threads.
 */
public final class FrameJudge {
    private static final int BACNET_IP = 0x81;
    private static final int RESULT = 0x00;
    private static final int FORWARDED = 0x04;
    private static final int UNICAST = 0x0A;
    private static final int BROADCAST = 0x0B;
    private static final int DISTRIBUTE = 0x09;
    private static final int REGISTER_FOREIGN_DEVICE = 0x05;
    private static final int HEADER = 4;
    private static final int FIRST_REPLY_TYPE = 2;
    private static final int FORWARDED_HEADER = 10;

    private final ApduJudge apdus;

    /** @param endless whether subscriptions may be without end */
    public FrameJudge(ObjectDirectory directory, WriteDoor door, BridgeClock clock, boolean endless) {
        this.apdus = new ApduJudge(directory, door, clock, endless);
    }

    public Verdict judge(Datagram datagram) {
        Octets octets = datagram.octets();
        if (octets.length() < HEADER || octets.at(0) != BACNET_IP) {
            return new Verdict.Drop(DropReason.NOT_BACNET_IP);
        }
        if (octets.slice(2, 2).number() != octets.length()) {
            return new Verdict.Drop(DropReason.LINK_LENGTH);
        }
        int function = octets.at(1);
        return switch (function) {
            case UNICAST -> network(octets.from(HEADER), datagram.sender(), datagram.toAll());
            case BROADCAST -> network(octets.from(HEADER), datagram.sender(), true);
            case FORWARDED -> forwarded(octets);
            case RESULT -> result(octets);
            default -> refuseFunction(function, datagram.toAll());
        };
    }

    /**
     * Whether the function of a datagram says that it is for everybody.
     *
     * @param passedOn whether one that a broadcast management device passed on counts, which it sends to some alone too
     */
    public static boolean isForAll(Octets octets, boolean passedOn) {
        return octets.length() >= HEADER
                && octets.at(0) == BACNET_IP
                && (octets.at(1) == BROADCAST || passedOn && octets.at(1) == FORWARDED);
    }

    private static Verdict result(Octets octets) {
        return octets.length() == HEADER + 2
                ? new Verdict.Result((int) octets.slice(HEADER, 2).number())
                : new Verdict.Drop(DropReason.LINK_LENGTH);
    }

    /** Broadcasts that a broadcast management device passes on, with the station that sent them. */
    private Verdict forwarded(Octets octets) {
        if (octets.length() < FORWARDED_HEADER) {
            return new Verdict.Drop(DropReason.LINK_LENGTH);
        }
        InetSocketAddress origin = address(octets.slice(4, 6));
        InetAddress host = origin.getAddress();
        if (origin.getPort() == 0 || host.isAnyLocalAddress() || host.isMulticastAddress() || octets.at(4) == 0xFF) {
            return new Verdict.Drop(DropReason.FORWARDED_ADDRESS);
        }
        return network(octets.from(FORWARDED_HEADER), origin, true);
    }

    /** Functions of broadcast management devices, which we are not, have a result each (J.2.1). */
    private static Verdict refuseFunction(int function, boolean toAll) {
        int result = switch (function) {
            case 0x01 -> 0x0010;
            case 0x02 -> 0x0020;
            case 0x05 -> 0x0030;
            case 0x06 -> 0x0040;
            case 0x08 -> 0x0050;
            case 0x09 -> 0x0060;
            default -> 0;
        };
        if (result == 0 || toAll) {
            return new Verdict.Drop(DropReason.LINK_FUNCTION);
        }
        return new Verdict.Answer(frame(RESULT, new OctetWriter().u16(result).done()), AnswerKind.LINK_REFUSAL);
    }

    private Verdict network(Octets npdu, InetSocketAddress source, boolean toAll) {
        NetworkHeader.Read read = NetworkHeader.read(npdu);
        if (read instanceof NetworkHeader.Read.Good good) {
            return afterHeader(good.header(), npdu, source, toAll);
        }
        return new Verdict.Drop(((NetworkHeader.Read.Bad) read).reason());
    }

    private Verdict afterHeader(NetworkHeader header, Octets npdu, InetSocketAddress source, boolean toAll) {
        if (header.betweenRouters()) {
            return header.announcesRoutes()
                    ? new Verdict.Pass(npdu, source, true)
                    : new Verdict.Drop(DropReason.NETWORK_MESSAGE);
        }
        ApduVerdict verdict = apdus.judge(header.rest(), header.sender(source), toAll || header.toAllNetworks());
        if (verdict instanceof ApduVerdict.Part) {
            Octets before = npdu.slice(0, npdu.length() - header.rest().length());
            return new Verdict.Part(new Segment(source, header, before, header.rest()));
        }
        return afterJudgement(verdict, header, npdu, source);
    }

    private static Verdict afterJudgement(
            ApduVerdict verdict, NetworkHeader header, Octets npdu, InetSocketAddress source) {
        if (verdict instanceof ApduVerdict.Drop drop) {
            return new Verdict.Drop(drop.reason());
        }
        if (verdict instanceof ApduVerdict.OwnInstance) {
            return new Verdict.OwnInstance(header.sender(source));
        }
        if (verdict instanceof ApduVerdict.Answer answer) {
            return new Verdict.Answer(reply(header, answer.apdu()), answer.kind());
        }
        return new Verdict.Pass(npdu, source, ApduJudge.type(header.rest()) >= FIRST_REPLY_TYPE);
    }

    /** The verdict on a request that was put together of segments. */
    Verdict whole(Segment segment, Octets npdu) {
        Octets apdu = npdu.from(segment.before().length());
        Peer from = segment.header().sender(segment.source());
        return afterJudgement(apdus.judgeWhole(apdu, from), segment.header(), npdu, segment.source());
    }

    /** A datagram back to who sent a message. */
    static Octets reply(NetworkHeader to, Octets apdu) {
        return frame(UNICAST, to.replyHeader().octets(apdu).done());
    }

    /** A whole datagram around the octets of a network message. */
    public static Octets unicast(Octets networkMessage) {
        return frame(UNICAST, networkMessage);
    }

    /** As {@link #unicast}, to everybody. */
    public static Octets broadcast(Octets networkMessage) {
        return frame(BROADCAST, networkMessage);
    }

    /** As {@link #broadcast}, by way of a broadcast management device (J.2.10). */
    public static Octets distributed(Octets networkMessage) {
        return frame(DISTRIBUTE, networkMessage);
    }

    /** A network message to every station of every network (6.2.2), around one of the application layer. */
    public static Octets toEveryNetwork(Octets apdu) {
        return NetworkHeader.toEverybody().octets(apdu).done();
    }

    /** Register-Foreign-Device (J.2.6). */
    public static Octets registration(int seconds) {
        return frame(REGISTER_FOREIGN_DEVICE, new OctetWriter().u16(seconds).done());
    }

    private static Octets frame(int function, Octets content) {
        return new OctetWriter()
                .u8(BACNET_IP)
                .u8(function)
                .u16(HEADER + content.length())
                .octets(content)
                .done();
    }

    /** A BACnet/IP address: four octets of IPv4 and two of port (J.1.2). */
    private static InetSocketAddress address(Octets six) {
        try {
            InetAddress host = InetAddress.getByAddress(six.slice(0, 4).toArray());
            return new InetSocketAddress(host, (int) six.slice(4, 2).number());
        } catch (UnknownHostException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
