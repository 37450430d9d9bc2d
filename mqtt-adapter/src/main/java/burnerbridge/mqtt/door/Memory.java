package burnerbridge.mqtt.door;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The asks of the last while, by where their answers go, so that one that comes twice is done once. None is forgotten
 * before its time: where a point has no room, no more is taken. Not for several threads.
 */
final class Memory {
    /** Of one point. */
    static final int MOST_OF_ONE = 256;
    /** Of one point: that wait for what becomes of them. */
    static final int MOST_OPEN = 32;

    private final Map<AskPoint, Map<Asked.Address, Asked>> points = new HashMap<>();

    Optional<Asked> of(AskPoint point, Asked.Address address) {
        return Optional.ofNullable(at(point).get(address));
    }

    private Map<Asked.Address, Asked> at(AskPoint point) {
        return points.computeIfAbsent(point, p -> new LinkedHashMap<>());
    }

    boolean hasRoom(AskPoint point) {
        Map<Asked.Address, Asked> asks = at(point);
        return asks.size() < MOST_OF_ONE
                && asks.values().stream().filter(Asked::isOpen).count() < MOST_OPEN;
    }

    void add(Asked asked) {
        at(asked.point).put(asked.address, asked);
    }

    /** Forgets what is over, and returns those that waited in vain for what became of them. */
    List<Asked> step(long now) {
        List<Asked> vain = new ArrayList<>();
        for (Map<Asked.Address, Asked> asks : points.values()) {
            for (Iterator<Asked> all = asks.values().iterator(); all.hasNext(); ) {
                Asked asked = all.next();
                if (asked.isOpen() && now - asked.waitUntil >= 0) {
                    vain.add(asked);
                } else if (!asked.isOpen() && now - asked.until >= 0) {
                    all.remove();
                }
            }
        }
        return vain;
    }
}
