package burnerbridge.bacnet.edge.watch;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Where the port stands on this machine: whether its address and the interface of that are still there, and which
 * addresses are our own. Looks at the interfaces when it is stepped, every ten seconds; says what it saw then.
 */
final class OwnPlace implements HealthSource {
    private static final Logger LOG = LoggerFactory.getLogger(OwnPlace.class);
    private static final long LOOK = 10_000_000_000L;

    private final String place;
    private final InetAddress host;
    private final int port;
    private final LocalAddress.Source source;
    private volatile List<LocalAddress> seen = List.of();
    private volatile Set<InetAddress> ofThisMachine = Set.of();
    private long looked;
    private volatile @Nullable Trouble trouble;

    OwnPlace(String place, InetAddress host, int port, LocalAddress.Source source, Stamp now) {
        this.place = place;
        this.host = host;
        this.port = port;
        this.source = source;
        this.looked = now.ticks();
        look();
    }

    private void look() {
        seen = List.copyOf(source.all());
        ofThisMachine = seen.stream().map(LocalAddress::address).collect(Collectors.toUnmodifiableSet());
    }

    /** Called by one thread. */
    void step(Stamp now) {
        if (now.ticks() - looked < LOOK) {
            return;
        }
        looked = now.ticks();
        look();
        Optional<String> wrong = wrong();
        Trouble before = trouble;
        if (wrong.isEmpty()) {
            if (before != null) {
                LOG.info("{}: the network interface is back", place);
            }
            trouble = null;
        } else if (before == null || !before.seen().equals(wrong.get())) {
            LOG.warn("{}: {}", place, wrong.get());
            trouble = new Trouble(
                    Place.NETWORK,
                    place,
                    wrong.get(),
                    "the cable and the addresses of this machine (ip -br address)",
                    before == null ? now : before.since(),
                    Trouble.Weight.NOT_READY);
        }
    }

    private Optional<String> wrong() {
        if (host.isLoopbackAddress()) {
            return Optional.empty();
        }
        if (host.isAnyLocalAddress()) {
            boolean none =
                    seen.stream().noneMatch(own -> own.up() && !own.address().isLoopbackAddress());
            return none
                    ? Optional.of("no network interface of this machine has an address and a link")
                    : Optional.empty();
        }
        Optional<LocalAddress> own = own();
        if (own.isEmpty()) {
            return Optional.of("this machine no longer has the address " + host.getHostAddress());
        }
        return own.get().up()
                ? Optional.empty()
                : Optional.of("the network interface " + own.get().device() + " is down or has no link");
    }

    /** The address of the port as the system has it; empty where it is gone, or every address is served. */
    Optional<LocalAddress> own() {
        return seen.stream().filter(local -> local.address().equals(host)).findFirst();
    }

    /** Whether a station is of a network of this machine. */
    boolean isNeighbour(InetAddress other) {
        return host.isAnyLocalAddress()
                ? seen.stream().anyMatch(local -> local.isNeighbour(other))
                : own().map(local -> local.isNeighbour(other)).orElse(false);
    }

    /** What a neighbour would have in common with the port: {@code 10.77.0.1/24}. */
    String networks() {
        String all = seen.stream()
                .filter(local -> host.isAnyLocalAddress()
                        ? !local.address().isLoopbackAddress()
                        : local.address().equals(host))
                .map(LocalAddress::text)
                .collect(Collectors.joining(", "));
        return all.isEmpty() ? place : all;
    }

    /** Whether the port's network has room for nobody else. */
    boolean isAlone() {
        return own().map(local -> local.prefix() == 32).orElse(false);
    }

    boolean isLoopback() {
        return host.isLoopbackAddress();
    }

    /** Whether a datagram is of this port. */
    boolean isOwn(InetSocketAddress sender) {
        return sender.getPort() == port && isOwn(sender.getAddress());
    }

    private boolean isOwn(InetAddress address) {
        return host.isAnyLocalAddress() ? isOfThisMachine(address) : address.equals(host);
    }

    /** Whether an address is one of this machine's. */
    boolean isOfThisMachine(InetAddress address) {
        return ofThisMachine.contains(address);
    }

    /**
     * Whether a message began at this port: by the address of BACnet/IP, which for one that was passed on is that of
     * its origin, or by the six octets that a router puts into the header of one that came around (J.1.2, 6.2.2).
     */
    boolean isOwn(Peer from) {
        if (from.network() == 0) {
            return from.port() == port && isOwn(address(from.address()));
        }
        Octets remote = from.remote();
        return remote.length() == 6
                && remote.slice(4, 2).number() == port
                && isOwn(address((int) remote.slice(0, 4).number()));
    }

    private static InetAddress address(int number) {
        try {
            return InetAddress.getByAddress(
                    ByteBuffer.allocate(4).putInt(number).array());
        } catch (java.net.UnknownHostException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** Whether something is so wrong here that what else is seen follows from it. */
    boolean isWrong() {
        return trouble != null;
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        Trouble present = trouble;
        if (present != null) {
            troubles.accept(present);
        }
    }
}
