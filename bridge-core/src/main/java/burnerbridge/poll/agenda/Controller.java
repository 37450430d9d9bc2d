package burnerbridge.poll.agenda;

import burnerbridge.line.LineTransport;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.pace.Paces;
import burnerbridge.poll.pace.Share;
import burnerbridge.site.ControllerDefinition;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/** The reads of one controller: which of them is wanted first, or is to find out whether it is back. */
public final class Controller {
    private final ControllerHealth health;
    private final LineParts line;
    private final List<Schedule> reads = new ArrayList<>();
    private final Map<Lane.Kind, Lane> lanes = new LinkedHashMap<>();
    private final Map<Integer, FunctionReads> functions = new HashMap<>();
    private final Probes probes = new Probes();
    private long heardAt;

    /** What the controllers of a line share. */
    record LineParts(LineTransport transport, Duration replyTimeout, Share probing, Paces paces) {}

    Controller(ControllerHealth health, LineParts line, long now) {
        this.health = health;
        this.line = line;
        this.heardAt = now;
    }

    public ControllerHealth health() {
        return health;
    }

    FunctionReads function(int code) {
        return functions.computeIfAbsent(code, c -> new FunctionReads());
    }

    Paces.Pace pace(ReadBlock block) {
        return line.paces().join(block.controller(), block.every());
    }

    /** So long that a read that alone is never answered takes 2 % of the line's time. */
    long longestSilence() {
        return line.replyTimeout().toNanos() * Controllers.PROBES_ONE_IN;
    }

    void add(Schedule read) {
        reads.add(read);
        read.function().add(read);
        put(read);
    }

    /** A read is no more. */
    void remove(Schedule read) {
        drop(read);
        read.park();
        reads.remove(read);
        read.function().remove(read);
        read.pace().leave();
    }

    public List<Schedule> reads() {
        return reads;
    }

    /** It has one read at least. */
    public ControllerDefinition definition() {
        return reads.get(0).block().controller();
    }

    /** Whether it is there and can answer, as far as is known. */
    public boolean isAnswering() {
        return !health.isSilent() && !health.isBusy();
    }

    void put(Schedule read) {
        if (!read.isParked()) {
            lanes.computeIfAbsent(Lane.Kind.of(read.block()), Lane::new).put(read);
        }
    }

    void drop(Schedule read) {
        Lane lane = lanes.get(Lane.Kind.of(read.block()));
        if (lane != null) {
            lane.drop(read);
        }
    }

    /** It can be asked again after a time in which it could not. */
    void restart(long now) {
        probes.restart();
        lanes.values().forEach(lane -> lane.change(read -> read.restart(now)));
    }

    /** It was to be left alone for a time. */
    void excuse(long now) {
        lanes.values().forEach(lane -> lane.change(read -> read.excuse(now)));
    }

    /** Whether it refuses some of what it is asked for, or did so when it was asked for it in one read. */
    public boolean isAnythingRefused() {
        return reads.stream()
                .anyMatch(read -> read.isParked()
                        || read.refusal().isUnderWay()
                        || read.family().isPresent());
    }

    /** What its functions and registers are is found out anew. */
    public void forgetFunctions() {
        functions.values().forEach(FunctionReads::forget);
    }

    public void heard(long now) {
        heardAt = now;
    }

    /** Whether it answered at or after a tick. */
    boolean isHeardSince(long tick) {
        return heardAt - tick >= 0;
    }

    /** Offers what may be asked of it now, of each lane the first, or says when there will be something. */
    void look(long now, Choice choice) {
        long from = health.isLost() ? line.probing().enoughAt(line.replyTimeout(), now) : now;
        from = Schedule.later(from, health.notBefore(now));
        if (from - now > 0) {
            choice.notBefore(from);
        } else if (health.isLost()) {
            Schedule probe = probes.next(reads);
            if (!choice.isHeld(probe)) {
                offer(probe, now, choice);
            }
        } else if (health.isSuspect()) {
            lookAtSuspect(now, choice);
        } else {
            lanes.values().forEach(lane -> look(lane, now, choice, choice::isHeld));
        }
    }

    /** Of what it did not answer lately something is asked only where nothing else is due: that may be answered. */
    private void lookAtSuspect(long now, Choice choice) {
        List<Schedule> unanswered = new ArrayList<>();
        Predicate<Schedule> isHeld = read -> choice.isHeld(read) || (read.isUnanswered() && unanswered.add(read));
        boolean other = false;
        for (Lane lane : lanes.values()) {
            other |= look(lane, now, choice, isHeld);
        }
        if (!other) {
            unanswered.forEach(read -> offer(read, now, choice));
        }
    }

    /** Offers the first of a lane; whether there was one that may be asked. */
    private boolean look(Lane lane, long now, Choice choice, Predicate<Schedule> isHeld) {
        Optional<Schedule> first = lane.first(now, isHeld, choice.aside());
        if (first.isEmpty()) {
            lane.nextDue().ifPresent(choice::notBefore);
        }
        return first.isPresent() && offer(first.get(), now, choice);
    }

    private boolean offer(Schedule read, long now, Choice choice) {
        long ready = line.transport().readyAt(read.request(), now);
        if (ready - now > 0) {
            choice.notBefore(ready);
            return false;
        }
        choice.offer(read);
        return true;
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
                        .filter(read -> read.rhythm().overdue(now) >= 0)
                        .filter(read -> line.transport().readyAt(read.request(), now) - now > 0)
                        .ifPresent(waiting::add);
            }
        }
    }

    /** A lost controller was asked whether it is back. */
    public void probed(long took, long now) {
        probes.asked();
        line.probing().spend(took, now);
    }
}
