package burnerbridge.bacnet.door;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.PointId;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/**
 * Tells subscribers what changes behind the door. The gate, which must not wait, only says which point it was; and what time
 * alone changes, a lease that runs down, is looked at again and again. Stepped: one thread calls {@link #step}.
 */
public final class DoorKeeper {
    private static final long LOOK_AGAIN = 1_000_000_000L;

    private final Door door;
    private final BridgeClock clock;
    private final Set<PointId> changed = ConcurrentHashMap.newKeySet();
    private final Semaphore news = new Semaphore(0);
    private long lookAgainAt;

    public DoorKeeper(Door door, BridgeClock clock) {
        this.door = door;
        this.clock = clock;
        this.lookAgainAt = clock.ticks();
        door.gate().watch(this::note);
    }

    private void note(PointId point) {
        if (changed.add(point)) {
            news.release();
        }
    }

    /** Waits up to so many nanoseconds for a change, and tells it; each second also what time has changed. */
    public void step(long nanos) throws InterruptedException {
        if (news.tryAcquire(nanos, TimeUnit.NANOSECONDS)) {
            news.drainPermits();
            for (PointId point : Set.copyOf(changed)) {
                changed.remove(point);
                door.tell(point);
            }
        }
        long now = clock.ticks();
        if (now - lookAgainAt >= 0) {
            lookAgainAt = now + LOOK_AGAIN;
            door.tellAll();
        }
    }
}
