package burnerbridge.mqtt;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointId;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.WriteEvent;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Queue;
import java.util.Set;

/** What the gate tells, put aside for the sender. Safe for any number of threads; nothing waits. */
final class WriteNews implements WriteEvent.Listener, PermitStatus.Watcher {
    /** Taken ten times a second; more than this is no news that anybody reads. */
    static final int MOST_WAITING = 1_000;

    private final BridgeClock clock;
    private final Queue<Heard> events = new ArrayDeque<>();
    private final Set<PointId> permits = new LinkedHashSet<>();

    /** @param at when it was heard */
    record Heard(WriteEvent event, Stamp at) {}

    WriteNews(BridgeClock clock) {
        this.clock = clock;
    }

    /** The oldest goes first where nobody takes them. */
    @Override
    public synchronized void told(WriteEvent event) {
        if (events.size() >= MOST_WAITING) {
            events.remove();
        }
        events.add(new Heard(event, clock.now()));
    }

    @Override
    public synchronized void changed(PointId point) {
        permits.add(point);
    }

    synchronized List<Heard> events() {
        List<Heard> taken = new ArrayList<>(events);
        events.clear();
        return taken;
    }

    /** The points whose permits stand otherwise than before. */
    synchronized List<PointId> permits() {
        List<PointId> taken = new ArrayList<>(permits);
        permits.clear();
        return taken;
    }
}
