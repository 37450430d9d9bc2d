package burnerbridge.bacnet.edge;

import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.type.constructed.Address;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Messages that wait to be worked on: fair between the stations, so that one which floods delays only itself.
 * Stations take turns; each has its allowance of requests a second, and what is over waits, so that a tool
 * that asks fast is slowed and loses nothing. What answers us goes first and has a place of its own. Bounded
 * whatever is sent. One thread polls, any may offer.
 */
public final class RequestQueue {
    private static final int SEATS = 1000;
    private static final int STATIONS = 1000;

    private final PeerLimits limits;
    private final BridgeClock clock;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition offered = lock.newCondition();
    private final Queue<NPDU> replies = new ArrayDeque<>();
    private final Map<Address, Line> lines = new HashMap<>();
    private final Deque<Line> turns = new ArrayDeque<>();
    private int waiting;

    /** The requests of one station. */
    private static final class Line {
        private final Queue<NPDU> requests = new ArrayDeque<>(2);
        private final Allowance allowance;

        Line(Allowance allowance) {
            this.allowance = allowance;
        }
    }

    public RequestQueue(PeerLimits limits, BridgeClock clock) {
        this.limits = limits;
        this.clock = clock;
    }

    /** Whether there was room. */
    boolean offer(NPDU request) {
        lock.lock();
        try {
            Line line = waiting >= SEATS ? null : line(request.getFrom());
            if (line == null || line.requests.size() >= limits.waiting()) {
                return false;
            }
            line.requests.add(request);
            waiting++;
            if (line.requests.size() == 1) {
                turns.add(line);
            }
            offered.signal();
            return true;
        } finally {
            lock.unlock();
        }
    }

    private @Nullable Line line(Address station) {
        Line known = lines.get(station);
        if (known != null) {
            return known;
        }
        long now = clock.ticks();
        if (lines.size() >= STATIONS) {
            lines.values().removeIf(line -> line.requests.isEmpty() && line.allowance.isRested(now));
        }
        if (lines.size() >= STATIONS) {
            return null;
        }
        Line fresh = new Line(new Allowance(limits.requestsPerSecond(), now));
        lines.put(station, fresh);
        return fresh;
    }

    /** As {@link #offer}, for what answers us or tells of routers. */
    boolean offerFirst(NPDU reply) {
        lock.lock();
        try {
            if (replies.size() >= SEATS) {
                return false;
            }
            replies.add(reply);
            offered.signal();
            return true;
        } finally {
            lock.unlock();
        }
    }

    /** The next message; null where none may be worked on within so many nanoseconds. */
    public @Nullable NPDU poll(long nanos) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            long end = clock.ticks() + nanos;
            while (true) {
                NPDU next = next();
                long left = end - clock.ticks();
                if (next != null || left <= 0) {
                    return next;
                }
                offered.await(Math.min(left, untilAllowed()), TimeUnit.NANOSECONDS);
            }
        } finally {
            lock.unlock();
        }
    }

    private @Nullable NPDU next() {
        NPDU reply = replies.poll();
        if (reply != null) {
            return reply;
        }
        long now = clock.ticks();
        for (int i = turns.size(); i > 0; i--) {
            Line line = turns.remove();
            NPDU request = line.allowance.take(now) ? line.requests.poll() : null;
            if (!line.requests.isEmpty()) {
                turns.add(line);
            }
            if (request != null) {
                waiting--;
                return request;
            }
        }
        return null;
    }

    /** How many messages wait now. */
    public int waiting() {
        lock.lock();
        try {
            return waiting + replies.size();
        } finally {
            lock.unlock();
        }
    }

    private long untilAllowed() {
        long now = clock.ticks();
        long least = Long.MAX_VALUE;
        for (Line line : turns) {
            least = Math.min(least, Math.max(1, line.allowance.untilNext(now)));
        }
        return least;
    }
}
