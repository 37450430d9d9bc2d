package burnerbridge.web.access;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/**
 * How many wrong tokens a peer may still show: ten, and one more every six seconds. Whoever has none left is not heard
 * until then, with whatever token, so that guessing is slow. Of IPv6, 64 bits of the address are a peer, since everybody
 * has all of the rest. One thread uses it.
 */
final class Guesses {
    static final int MOST = 10;
    static final long EACH = TimeUnit.SECONDS.toNanos(6);
    /** Those remembered; the one that guessed longest ago is forgotten first. */
    static final int MOST_PEERS = 1_024;

    private final Map<String, Left> peers = new LinkedHashMap<>(16, 0.75f, true);

    private record Left(long guesses, long at) {
        Left at(long now) {
            long more = (now - at) / EACH;
            return guesses + more >= MOST ? new Left(MOST, now) : new Left(guesses + more, at + more * EACH);
        }
    }

    boolean hasAny(InetAddress peer, long now) {
        Left left = peers.get(name(peer));
        return left == null || left.at(now).guesses() > 0;
    }

    void wrong(InetAddress peer, long now) {
        Left left = peers.getOrDefault(name(peer), new Left(MOST, now)).at(now);
        peers.put(name(peer), new Left(Math.max(0, left.guesses() - 1), left.at()));
        if (peers.size() > MOST_PEERS) {
            peers.remove(peers.keySet().iterator().next());
        }
    }

    int remembered() {
        return peers.size();
    }

    private static String name(InetAddress peer) {
        byte[] octets = peer.getAddress();
        return Arrays.toString(peer instanceof Inet6Address ? Arrays.copyOf(octets, 8) : octets);
    }
}
