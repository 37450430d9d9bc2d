package burnerbridge.poll;

import burnerbridge.line.LineTransport;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The reads of one controller: which of them is wanted first, or is to find out whether it is back. */
final class Controller {
    final ControllerHealth health;
    private final LineTransport transport;
    private final List<Schedule> reads = new ArrayList<>();
    private final Map<Lane.Kind, Lane> lanes = new LinkedHashMap<>();
    private final Map<Integer, FunctionReads> functions = new HashMap<>();
    private final Probes probes = new Probes();

    Controller(ControllerHealth health, LineTransport transport) {
        this.health = health;
        this.transport = transport;
    }

    FunctionReads function(int code) {
        return functions.computeIfAbsent(code, c -> new FunctionReads());
    }

    void add(Schedule read) {
        reads.add(read);
        read.function.add(read);
        put(read);
    }

    List<Schedule> reads() {
        return reads;
    }

    void put(Schedule read) {
        if (!read.isParked()) {
            lanes.computeIfAbsent(Lane.Kind.of(read.block), Lane::new).put(read);
        }
    }

    void drop(Schedule read) {
        Lane lane = lanes.get(Lane.Kind.of(read.block));
        if (lane != null) {
            lane.drop(read);
        }
    }

    /** Offers what may be asked of it now, of each lane the first, or says when there will be something. */
    void look(long now, Choice choice) {
        long from = health.notBefore(now);
        if (from - now > 0) {
            choice.notBefore(from);
        } else if (health.isLost()) {
            Schedule probe = probes.next(reads);
            if (!choice.isHeld(probe)) {
                offer(probe, now, choice);
            }
        } else {
            lanes.values().forEach(lane -> look(lane, now, choice));
        }
    }

    private void look(Lane lane, long now, Choice choice) {
        lane.first(now, choice::isHeld, choice.aside())
                .ifPresentOrElse(
                        first -> offer(first, now, choice), () -> lane.nextDue().ifPresent(choice::notBefore));
    }

    /**
     * Adds the careful reads that were due a whole interval ago and still cannot be asked, since late replies to
     * other reads are in their way.
     */
    void addKeptWaiting(long now, List<Schedule> waiting) {
        if (health.isLost() || health.notBefore(now) != now) {
            return;
        }
        for (Lane lane : lanes.values()) {
            if (lane.kind().isCareful()) {
                lane.first(now, read -> false, List.of())
                        .filter(read -> read.overdue(now) >= 0)
                        .filter(read -> transport.readyAt(read.request(), now) - now > 0)
                        .ifPresent(waiting::add);
            }
        }
    }

    /** The read that was taken is asked now. */
    void asked(Schedule read, long now) {
        if (health.isLost()) {
            probes.asked();
        }
        read.asked(now);
    }

    private void offer(Schedule read, long now, Choice choice) {
        long ready = transport.readyAt(read.request(), now);
        if (ready - now > 0) {
            choice.notBefore(ready);
        } else {
            choice.offer(read);
        }
    }
}
