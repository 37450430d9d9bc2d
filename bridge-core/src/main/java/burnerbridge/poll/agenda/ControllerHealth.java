package burnerbridge.poll.agenda;

import burnerbridge.model.Stamp;
import burnerbridge.poll.pace.Busy;
import burnerbridge.poll.pace.Pause;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ControllerLink.State;
import burnerbridge.table.ValueTable;
import java.util.HashSet;
import java.util.Set;
import java.util.function.LongSupplier;

/**
 * Whether one controller answers. After three silences in a row it is lost, and is then asked one
 * cheap question at a time, with pauses that grow, until it answers. One that says that it is busy to
 * whatever it is asked is there, and is left alone for a while that grows, until it answers.
 */
public final class ControllerHealth {
    public static final int SILENCES_UNTIL_LOST = 3;

    /** So many different reads in a row that meet a busy controller are enough; fewer where it has no more. */
    static final int BUSY_READS = 8;

    private final ControllerDefinition controller;
    private final ValueTable table;
    private final LineLog log;
    private final Pause probes;
    private final Busy busy = new Busy();
    private final Set<Schedule> busyInARow = new HashSet<>();
    private int silences;

    /** @param longestProbePause asked anew for each probe, as it depends on what else is lost */
    ControllerHealth(ControllerDefinition controller, ValueTable table, LineLog log, LongSupplier longestProbePause) {
        this.controller = controller;
        this.table = table;
        this.log = log;
        this.probes = new Pause(longestProbePause);
    }

    public boolean isLost() {
        return silences >= SILENCES_UNTIL_LOST;
    }

    /** Whether it did not answer what it was asked last. */
    public boolean isSilent() {
        return silences > 0;
    }

    /** Whether it may turn out to be lost. */
    boolean isSuspect() {
        return isSilent() && !isLost();
    }

    /** Where it is lost: it is asked whether it is back after a first pause again. */
    void probeSoon(long now) {
        if (isLost()) {
            probes.end();
            probes.grow(now);
        }
    }

    /** Whether it says that it is busy to whatever it is asked. */
    public boolean isBusy() {
        return busy.isSo();
    }

    /** The first moment at or after a tick at which the controller may be asked. */
    public long notBefore(long tick) {
        return probes.notBefore(busy.notBefore(tick));
    }

    /** It answers, be it with a refusal; whether it was busy as a whole until now. */
    public boolean answered(Stamp now) {
        isThere(now);
        busyInARow.clear();
        boolean was = busy.isSo();
        if (busy.isOver()) {
            log.noLongerBusy(controller);
        }
        return was;
    }

    /**
     * It answers to a read that it cannot answer now; whether it now counts as busy as a whole.
     *
     * @param reads how many it has in all
     */
    public boolean busy(Schedule read, int code, int reads, Stamp now) {
        isThere(now);
        busyInARow.add(read);
        if (busyInARow.size() < Math.min(reads, BUSY_READS)) {
            return false;
        }
        if (busy.again(now.ticks())) {
            log.busy(controller, code);
        }
        return true;
    }

    private void isThere(Stamp now) {
        silences = 0;
        probes.end();
        ControllerLink before = table.link(controller);
        if (before.state() != State.UP) {
            log.there(controller, before);
            table.publish(controller, ControllerLink.up(now));
        }
    }

    public void silent(String detail, Stamp now) {
        silences++;
        if (isLost()) {
            probes.grow(now.ticks());
            down(Cause.NO_REPLY, detail, now);
        }
    }

    void lineDown(String detail, Stamp now) {
        busy.isOver();
        busyInARow.clear();
        silences = 0;
        probes.end();
        down(Cause.LINE_DOWN, detail, now);
    }

    private void down(Cause cause, String detail, Stamp now) {
        ControllerLink before = table.link(controller);
        if (before.state() == State.DOWN && before.cause() == cause) {
            return;
        }
        if (cause == Cause.NO_REPLY) {
            log.lost(controller, detail);
        }
        table.publish(controller, ControllerLink.down(cause, detail, now));
    }
}
