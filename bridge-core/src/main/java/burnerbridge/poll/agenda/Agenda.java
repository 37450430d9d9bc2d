package burnerbridge.poll.agenda;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;

/**
 * All reads of a line, and which of them is next. A step costs as much as the line has controllers and kinds of
 * reads, but for sorting the one that was asked in again.
 */
public final class Agenda {
    private final Collection<Controller> controllers;
    private final Duration replyTimeout;
    private final Trouble trouble;
    private final List<Schedule> aside = new ArrayList<>();
    private boolean anyKeptWaiting;
    private boolean changed;
    private Optional<Long> soonest = Optional.empty();
    private Optional<Schedule> taken = Optional.empty();

    public Agenda(Collection<Controller> controllers, Duration replyTimeout, Trouble trouble) {
        this.controllers = List.copyOf(controllers);
        this.replyTimeout = replyTimeout;
        this.trouble = trouble;
    }

    /** Takes the read that is to be asked now, if any is; {@link #putBack} must follow. */
    public Optional<Schedule> take(long now) {
        putAsideBack();
        List<Schedule> waiting = new ArrayList<>();
        controllers.forEach(controller -> controller.addKeptWaiting(now, waiting));
        Choice choice = new Choice(now, waiting, replyTimeout, trouble);
        controllers.forEach(controller -> controller.look(now, choice));
        anyKeptWaiting = !waiting.isEmpty();
        aside.addAll(choice.aside());
        soonest = choice.soonest();
        taken = choice.best();
        taken.ifPresent(this::drop);
        return taken;
    }

    /** Where the last call of {@link #take} found nothing: the tick at which there may be something. */
    public Optional<Long> soonest() {
        return soonest;
    }

    /** The read that was taken waits for its next turn. */
    public void putBack() {
        Optional<Schedule> back = taken;
        taken = Optional.empty();
        back.ifPresent(this::put);
    }

    private void put(Schedule read) {
        if (!taken.equals(Optional.of(read))) {
            read.controller().put(read);
        }
    }

    private void drop(Schedule read) {
        aside.remove(read);
        read.controller().drop(read);
    }

    /** A read is wanted at another moment than it was. */
    public void move(Schedule read, long tick) {
        drop(read);
        read.unpark();
        read.dueAt(tick);
        put(read);
    }

    /** Reads take another's place. */
    public void replace(Schedule gone, List<Schedule> by) {
        gone.controller().remove(gone);
        aside.remove(gone);
        by.forEach(gone.controller()::add);
        changed = true;
    }

    /** A read is made from now on. */
    public void add(Schedule read) {
        read.controller().add(read);
        changed = true;
    }

    /** Whether reads took others' places since this was last called. */
    public boolean hasChanged() {
        boolean was = changed;
        changed = false;
        return was;
    }

    /** Whether a careful read waited at the last call of {@link #take}. */
    public boolean isAnyKeptWaiting() {
        return anyKeptWaiting;
    }

    /** A controller that was not there for a while is again. */
    public void restart(Controller controller, long now) {
        putAsideBack();
        controller.restart(now);
    }

    /** A controller that was busy for a while is no longer. */
    public void excuse(Controller controller, long now) {
        putAsideBack();
        controller.excuse(now);
    }

    private void putAsideBack() {
        aside.forEach(this::put);
        aside.clear();
    }

    /** A read stands aside until it is moved. */
    public void park(Schedule read) {
        drop(read);
        read.park();
    }
}
