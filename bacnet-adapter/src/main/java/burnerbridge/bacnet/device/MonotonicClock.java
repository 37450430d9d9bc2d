package burnerbridge.bacnet.device;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/**
 * The library's clock. It uses it for time-outs and lifetimes only, so it starts at the wall clock's time and
 * then runs with the ticks: a stepped wall clock must not end subscriptions.
 */
final class MonotonicClock extends Clock {
    private final BridgeClock clock;
    private final Stamp start;
    private final ZoneId zone;

    MonotonicClock(BridgeClock clock) {
        this(clock, clock.now(), ZoneOffset.UTC);
    }

    private MonotonicClock(BridgeClock clock, Stamp start, ZoneId zone) {
        this.clock = clock;
        this.start = start;
        this.zone = zone;
    }

    @Override
    public Instant instant() {
        return start.wall().plusNanos(start.ageAt(clock.ticks()));
    }

    @Override
    public ZoneId getZone() {
        return zone;
    }

    @Override
    public Clock withZone(ZoneId other) {
        return new MonotonicClock(clock, start, other);
    }
}
