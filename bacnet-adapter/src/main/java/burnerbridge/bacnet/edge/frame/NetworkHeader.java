package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Cursor;
import burnerbridge.bacnet.edge.coding.OctetWriter;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.bacnet.edge.service.Peer;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.util.Optional;

/**
 * The network layer's header (ASHRAE 135, 6.2).
 *
 * @param toAllNetworks whether it is a global broadcast
 * @param remote who sent it, where that is behind a router
 * @param betweenRouters whether a message of the network layer follows rather than one of the application
 * @param rest what follows the header
 */
record NetworkHeader(boolean toAllNetworks, Optional<Remote> remote, boolean betweenRouters, Octets rest) {

    /** A station of another network: 1 to 65534, and its address there. */
    record Remote(int network, Octets address) {}

    private static final int VERSION = 1;
    private static final int RESERVED = 0x50;
    private static final int BETWEEN_ROUTERS = 0x80;
    private static final int WITH_DESTINATION = 0x20;
    private static final int WITH_SOURCE = 0x08;
    private static final int EVERY_NETWORK = 0xFFFF;
    private static final int MOST_HOPS = 0xFF;
    /** The longest address of a data link: seven octets, a neuron id; from memory. */
    private static final int LONGEST_ADDRESS = 7;

    /** Either a header or why there is none. */
    sealed interface Read {
        record Good(NetworkHeader header) implements Read {}

        record Bad(DropReason reason) implements Read {}
    }

    static Read read(Octets npdu) {
        Cursor cursor = new Cursor(npdu);
        if (cursor.u8() != VERSION) {
            return new Read.Bad(DropReason.NETWORK_VERSION);
        }
        int control = cursor.u8();
        if ((control & RESERVED) != 0) {
            return new Read.Bad(DropReason.NETWORK_CONTROL);
        }
        boolean withDestination = (control & WITH_DESTINATION) != 0;
        int destination = withDestination ? cursor.u16() : 0;
        int destinationLength = withDestination ? cursor.u8() : 0;
        cursor.take(destinationLength);
        Optional<Remote> remote = (control & WITH_SOURCE) != 0
                ? Optional.of(new Remote(cursor.u16(), cursor.take(cursor.u8())))
                : Optional.empty();
        int hops = withDestination ? cursor.u8() : 1;
        if (cursor.ranOut()) {
            return new Read.Bad(DropReason.NETWORK_LENGTH);
        }
        if (remote.isPresent() && !isStation(remote.get())) {
            return new Read.Bad(DropReason.NETWORK_ADDRESS);
        }
        if (hops == 0) {
            return new Read.Bad(DropReason.HOP_COUNT);
        }
        if (withDestination && destination != EVERY_NETWORK) {
            return new Read.Bad(destination == 0 ? DropReason.NETWORK_ADDRESS : DropReason.OTHER_NETWORK);
        }
        if (destinationLength != 0) {
            return new Read.Bad(DropReason.NETWORK_ADDRESS);
        }
        return new Read.Good(
                new NetworkHeader(withDestination, remote, (control & BETWEEN_ROUTERS) != 0, cursor.rest()));
    }

    private static boolean isStation(Remote remote) {
        int length = remote.address().length();
        return remote.network() >= 1 && remote.network() < EVERY_NETWORK && length >= 1 && length <= LONGEST_ADDRESS;
    }

    /** Who sent a message with this header in a datagram of a station. */
    Peer sender(InetSocketAddress station) {
        int address = ByteBuffer.wrap(station.getAddress().getAddress()).getInt();
        return new Peer(
                address,
                station.getPort(),
                remote.map(Remote::network).orElse(0),
                remote.map(Remote::address).orElse(Octets.of()));
    }

    /** The header of a reply: back to the remote station through the router it came by, or plain. */
    OctetWriter replyHeader() {
        if (remote.isEmpty()) {
            return new OctetWriter().u8(VERSION).u8(0);
        }
        Remote station = remote.get();
        return new OctetWriter()
                .u8(VERSION)
                .u8(WITH_DESTINATION)
                .u16(station.network())
                .u8(station.address().length())
                .octets(station.address())
                .u8(MOST_HOPS);
    }

    /** The header of what goes to every station of every network, so far as routers pass it on. */
    static OctetWriter toEverybody() {
        return new OctetWriter()
                .u8(VERSION)
                .u8(WITH_DESTINATION)
                .u16(EVERY_NETWORK)
                .u8(0)
                .u8(MOST_HOPS);
    }

    /** Whether this is an I-Am-Router-To-Network of a router on our own network (6.4.2). */
    boolean announcesRoutes() {
        if (rest.length() < 3 || rest.length() % 2 == 0 || rest.at(0) != 1 || remote.isPresent()) {
            return false;
        }
        Cursor networks = new Cursor(rest.from(1));
        while (networks.more()) {
            int network = networks.u16();
            if (network == 0 || network == EVERY_NETWORK) {
                return false;
            }
        }
        return true;
    }
}
