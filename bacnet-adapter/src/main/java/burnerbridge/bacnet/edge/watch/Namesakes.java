package burnerbridge.bacnet.edge.watch;

import burnerbridge.bacnet.edge.service.Peer;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Other devices with our device instance, which must be one device's alone in the whole internetwork (ASHRAE 135,
 * 12.11.1): known by their I-Am. Each is told once, and once more when it has not been heard for a while.
 * Remembers a bounded number of them. Safe for any number of threads.
 */
final class Namesakes implements HealthSource {
    private static final Logger LOG = LoggerFactory.getLogger(Namesakes.class);
    /** More than that have nothing to add, and whoever makes up addresses must not fill memory or log. */
    static final int MOST = 4;
    /** Two rounds of asking, and some. */
    static final Duration FORGOTTEN_AFTER = Duration.ofMinutes(35);

    private final String place;
    private final Map<Peer, Heard> heard = new LinkedHashMap<>();

    private static final class Heard {
        private final int instance;
        private final Stamp first;
        private long latest;

        Heard(int instance, Stamp now) {
            this.instance = instance;
            this.first = now;
            this.latest = now.ticks();
        }
    }

    Namesakes(String place) {
        this.place = place;
    }

    /** An I-Am of another device came. */
    void heard(Peer from, int instance, Stamp now) {
        if (noted(from, instance, now)) {
            LOG.warn("{}: {}; look at {}", place, seen(from, instance), lookAt(instance));
        }
    }

    private synchronized boolean noted(Peer from, int instance, Stamp now) {
        Heard before = heard.get(from);
        if (before != null) {
            before.latest = now.ticks();
            return false;
        }
        if (heard.size() >= MOST) {
            return false;
        }
        heard.put(from, new Heard(instance, now));
        return true;
    }

    void step(Stamp now) {
        for (Peer gone : gone(now.ticks())) {
            LOG.info(
                    "{}: {} has not been heard for {} min",
                    place,
                    "the other device with our instance at " + where(gone),
                    FORGOTTEN_AFTER.toMinutes());
        }
    }

    private synchronized List<Peer> gone(long now) {
        List<Peer> gone = new ArrayList<>();
        for (Iterator<Map.Entry<Peer, Heard>> each = heard.entrySet().iterator(); each.hasNext(); ) {
            Map.Entry<Peer, Heard> next = each.next();
            if (now - next.getValue().latest >= FORGOTTEN_AFTER.toNanos()) {
                gone.add(next.getKey());
                each.remove();
            }
        }
        return gone;
    }

    /** How many are known now. */
    synchronized int count() {
        return heard.size();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        List<Trouble> told = new ArrayList<>();
        synchronized (this) {
            heard.forEach((from, what) -> told.add(new Trouble(
                    Place.NETWORK,
                    place,
                    seen(from, what.instance),
                    lookAt(what.instance),
                    what.first,
                    Trouble.Weight.DEGRADED)));
        }
        told.forEach(troubles);
    }

    private static String seen(Peer from, int instance) {
        return "another device has our device instance " + instance + ": it is at " + where(from);
    }

    private static String lookAt(int instance) {
        return "device-instance in site.yaml and the instance of that device: only one may be " + instance;
    }

    /** Where a device is, for people: its address, or network and address behind which router. */
    private static String where(Peer from) {
        int ip = from.address();
        String station =
                (ip >>> 24) + "." + (ip >> 16 & 0xFF) + "." + (ip >> 8 & 0xFF) + "." + (ip & 0xFF) + ":" + from.port();
        return from.network() == 0
                ? station
                : "address " + from.remote().hex() + " of network " + from.network() + ", behind the router " + station;
    }
}
