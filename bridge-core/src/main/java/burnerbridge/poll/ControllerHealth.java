package burnerbridge.poll;

import burnerbridge.model.Stamp;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Whether one controller answers. After three silences in a row it is lost, and is then asked one
 * cheap question at a time, with pauses that grow, until it answers. One that says that it is busy is
 * there, and is left alone for a while that grows, until it answers.
 */
final class ControllerHealth {
    static final int SILENCES_UNTIL_LOST = 3;
    private static final long FIRST_PROBE_PAUSE = 1_000_000_000L;
    private static final Logger LOG = LoggerFactory.getLogger(ControllerHealth.class);

    private final ControllerDefinition controller;
    private final ValueTable table;
    private final LongSupplier longestProbePause;
    private int silences;
    private long probePause;
    private long nextProbe;
    private final BusyPause busy = new BusyPause();

    /** @param longestProbePause asked anew for each probe, as it depends on what else is lost */
    ControllerHealth(ControllerDefinition controller, ValueTable table, LongSupplier longestProbePause) {
        this.longestProbePause = longestProbePause;
        this.controller = controller;
        this.table = table;
    }

    boolean isLost() {
        return silences >= SILENCES_UNTIL_LOST;
    }

    /** The first moment at or after a tick at which the controller may be asked. */
    long notBefore(long tick) {
        long rested = busy.notBefore(tick);
        return isLost() && nextProbe - rested > 0 ? nextProbe : rested;
    }

    void answered(Stamp now) {
        if (busy.isOver()) {
            LOG.info("controller {}: is no longer busy", controller.name());
        }
        isThere(now);
    }

    /** It answers that it cannot answer now. */
    void busy(int code, Stamp now) {
        isThere(now);
        if (busy.again(now.ticks())) {
            LOG.warn("controller {}: has been busy for a while (exception {})", controller.name(), code);
        }
    }

    private void isThere(Stamp now) {
        silences = 0;
        probePause = 0;
        if (table.link(controller).state() != State.UP) {
            LOG.info("controller {}: answers", controller.name());
            table.publish(controller, ControllerLink.up(now));
        }
    }

    void silent(String detail, Stamp now) {
        silences++;
        if (!isLost()) {
            return;
        }
        probePause = probePause == 0 ? FIRST_PROBE_PAUSE : Math.min(2 * probePause, longestProbePause.getAsLong());
        nextProbe = now.ticks() + probePause;
        down(Cause.NO_REPLY, detail, now);
    }

    void lineDown(String detail, Stamp now) {
        busy.isOver();
        silences = 0;
        probePause = 0;
        down(Cause.LINE_DOWN, detail, now);
    }

    private void down(Cause cause, String detail, Stamp now) {
        ControllerLink before = table.link(controller);
        if (before.state() == State.DOWN && before.cause() == cause) {
            return;
        }
        if (cause == Cause.NO_REPLY) {
            LOG.warn("controller {}: does not answer: {}", controller.name(), detail);
        }
        table.publish(controller, ControllerLink.down(cause, detail, now));
    }
}
