package burnerbridge.daemon;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells in the log when the clock of the box is not believed, and when it is again. */
final class ClockWatch {
    private static final Logger LOG = LoggerFactory.getLogger(ClockWatch.class);

    private final BridgeClock clock;
    private boolean believed = true;

    ClockWatch(BridgeClock clock) {
        this.clock = clock;
    }

    void step() {
        Stamp now = clock.now();
        if (believed && !now.believed()) {
            LOG.warn(
                    "clock: it says {}, which cannot be right: each time is marked as unsure until it is set; look at the"
                            + " time service of the box and its battery",
                    now.wall());
        } else if (!believed && now.believed()) {
            LOG.info("clock: it is believed, at {}", now.wall());
        }
        believed = now.believed();
    }
}
