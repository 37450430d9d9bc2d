package burnerbridge.bacnet.edge;

import java.net.InetAddress;
import java.util.HashMap;
import java.util.Map;

/**
 * Tells which hosts send more than anybody needs to, whatever it is that they send, before any time is spent
 * on it. A host may send ten times the requests that one station may ask, as there can be many stations on it
 * or behind it. Remembers a bounded number of hosts: beyond, the newcomers share one allowance.
 */
final class Flood {
    private static final int HOSTS = 1000;
    private static final int TIMES = 10;

    private final int perSecond;
    private final Map<InetAddress, Allowance> hosts = new HashMap<>();
    private final Allowance newcomers;

    Flood(PeerLimits limits, long now) {
        this.perSecond = Math.multiplyExact(limits.requestsPerSecond(), TIMES);
        this.newcomers = new Allowance(perSecond, now);
    }

    synchronized boolean isTooMuch(InetAddress host, long now) {
        Allowance allowance = hosts.get(host);
        if (allowance == null) {
            allowance = admit(host, now);
        }
        return !allowance.take(now);
    }

    private Allowance admit(InetAddress host, long now) {
        if (hosts.size() >= HOSTS) {
            hosts.values().removeIf(known -> known.isRested(now));
        }
        if (hosts.size() >= HOSTS) {
            return newcomers;
        }
        Allowance fresh = new Allowance(perSecond, now);
        hosts.put(host, fresh);
        return fresh;
    }
}
