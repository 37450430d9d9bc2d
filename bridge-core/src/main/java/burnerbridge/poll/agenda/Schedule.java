package burnerbridge.poll.agenda;

import burnerbridge.line.ReadRequest;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.pace.Busy;
import burnerbridge.poll.pace.Paces;
import burnerbridge.poll.pace.Pause;
import burnerbridge.poll.pace.Rhythm;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * When a block is wanted next, and what became of it so far. What orders it among others changes only while it
 * stands in no {@link Lane}.
 */
public final class Schedule {
    /** Refused registers are asked for at pauses that grow to this. */
    static final Duration LONGEST_REFUSAL = Duration.ofHours(1);

    /** Which is wanted first. Ticks may overflow, so they are compared by their difference. */
    public static final Comparator<Schedule> BY_DUE =
            (one, other) -> one.compare(one.rhythm.due() - other.rhythm.due(), other);

    /** Which is the first to be late. */
    static final Comparator<Schedule> BY_DEADLINE =
            (one, other) -> one.compare(one.deadline() - other.deadline(), other);

    private static final long FIRST_OF_ALL = Duration.ofHours(1).toNanos();

    private final ReadBlock block;
    private final Controller controller;
    private final FunctionReads function;
    private final Gathering gathering;
    private final Rhythm rhythm;
    private final Paces.Pace pace;
    private final Busy busy = new Busy();
    private final Pause refusal = new Pause(LONGEST_REFUSAL);
    private final int number;
    private final Pause silence;
    private Optional<Family> family = Optional.empty();
    private int unanswered;
    private boolean everAnswered;
    private boolean parked;

    /** @param number where two are wanted at the same moment, the lower one comes first */
    Schedule(ReadBlock block, int number, Controller controller, Rhythm rhythm) {
        this.block = block;
        this.number = number;
        this.controller = controller;
        this.function = controller.function(block.function());
        this.gathering = new Gathering(block);
        this.rhythm = rhythm;
        this.pace = controller.pace(block);
        this.silence = new Pause(controller::longestSilence);
    }

    public ReadBlock block() {
        return block;
    }

    public Controller controller() {
        return controller;
    }

    public FunctionReads function() {
        return function;
    }

    public Gathering gathering() {
        return gathering;
    }

    public Rhythm rhythm() {
        return rhythm;
    }

    public Paces.Pace pace() {
        return pace;
    }

    public Busy busy() {
        return busy;
    }

    public Pause refusal() {
        return refusal;
    }

    /** One for a part of this one's block, or for what this one is a part of; due now. */
    public Schedule fork(ReadBlock other, long now) {
        Schedule fork = new Schedule(other, number, controller, rhythm.fork(other.every(), now));
        fork.family = family;
        fork.everAnswered = everAnswered;
        return fork;
    }

    /**
     * One for a block of a new plan.
     *
     * @param before those that its points were in
     */
    public static Schedule following(List<Schedule> before, ReadBlock block, Rhythm rhythm) {
        Schedule first = before.get(0);
        Schedule next = new Schedule(block, first.number, first.controller, rhythm);
        next.everAnswered = before.stream().allMatch(read -> read.everAnswered);
        return next;
    }

    /** Whether a new plan leaves it as it is: something is known of it, or being found out, that is not of others. */
    public boolean stays() {
        return hasTrouble() || family.isPresent() || busy.isSo() || !gathering.isFresh();
    }

    /** Whether its points are not to be had, so that no read for others may take their addresses. */
    public boolean hasTrouble() {
        return refusal.isUnderWay() || silence.isUnderWay() || parked || function.isDoubtful(this);
    }

    private int compare(long difference, Schedule other) {
        return difference == 0 ? Integer.compare(number, other.number) : Long.signum(difference);
    }

    private long deadline() {
        // The rest of a value follows before anything else, before it can have changed.
        return gathering.isFresh() ? rhythm.deadline() : rhythm.due() - FIRST_OF_ALL;
    }

    /** What is asked next. */
    public ReadRequest request() {
        return gathering.next();
    }

    /** It is asked now; with the first request of a turn the next turn is set. How many turns were left out. */
    public long asked(long now) {
        if (gathering.isFresh()) {
            return rhythm.taken(now);
        }
        rhythm.nextTurn(now);
        return 0;
    }

    /** The tick at which it is wanted. */
    public long due() {
        return rhythm.due();
    }

    /** Wanted at a tick, whatever was so before. */
    public void dueAt(long tick) {
        rhythm.dueAt(tick);
    }

    /** Not wanted before a tick, be its next turn sooner. */
    void notBefore(long tick) {
        if (tick - due() > 0) {
            rhythm.dueAt(tick);
        }
    }

    /** It is busy: wanted again at a tick; but what a read clears waits for its next turn at least. */
    public void retryAt(long tick) {
        if (block.isOnce()) {
            notBefore(tick);
        } else {
            dueAt(tick);
        }
    }

    /** Whether it may be asked before its turn: nothing was said against it, and it clears nothing. */
    public boolean mayBeHastened() {
        return !block.isOnce() && !parked && !refusal.isUnderWay() && !silence.isUnderWay() && !busy.isSo();
    }

    /** After a time in which it was not to be asked: what was missed is not counted as left out. */
    void excuse(long now) {
        if (due() - now < 0 || (busy.isSo() && !block.isOnce())) {
            dueAt(now);
        }
        busy.isOver();
        pace.interrupted();
    }

    /** The same after a time in which nobody was there, so that what was put off is wanted, too. */
    void restart(long now) {
        if ((refusal.isUnderWay() || silence.isUnderWay()) && !block.isOnce()) {
            dueAt(now);
        }
        silence.end();
        excuse(now);
    }

    /** Whether it stands aside until something is known, and is not asked meanwhile. */
    public boolean isParked() {
        return parked;
    }

    void park() {
        parked = true;
    }

    void unpark() {
        parked = false;
    }

    /** What it is a part of, where a read had to be taken apart. */
    public Optional<Family> family() {
        return family;
    }

    void join(Family whole) {
        family = Optional.of(whole);
    }

    /** It is whole again. */
    public void leave() {
        family = Optional.empty();
    }

    /** It was refused, and cannot be taken apart: asked at pauses that grow. */
    public void refused(long now) {
        refusal.grow(now);
        notBefore(refusal.notBefore(now));
    }

    /** Whether it was refused until now. */
    public boolean accepted() {
        boolean was = refusal.isUnderWay();
        refusal.end();
        return was;
    }

    /** It was answered, be it by a refusal; how often in a row it was not. */
    public int answered() {
        int before = unanswered;
        unanswered = 0;
        everAnswered = true;
        silence.end();
        return before;
    }

    /** It was not answered; how often in a row so far. */
    public int unanswered() {
        return ++unanswered;
    }

    public boolean isUnanswered() {
        return unanswered > 0;
    }

    /** A read that alone is not answered costs as little as a lost controller. */
    public void putOffForSilence(long now) {
        silence.grow(now);
        notBefore(silence.notBefore(now));
    }

    boolean wasEverAnswered() {
        return everAnswered;
    }

    /** How many addresses its next request takes. */
    int size() {
        return request().count();
    }

    /** Ticks may overflow, so they are compared by their difference. */
    public static long later(long one, long other) {
        return one - other >= 0 ? one : other;
    }
}
