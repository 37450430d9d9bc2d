package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;

/**
 * Learns the turnaround of one controller from its replies: the median of what the last {@value #WINDOW} of
 * them took beyond the wire time. A few that were held up, or were quicker than the wire allows, move it
 * little; what was not answered is not to be told. For one thread.
 */
public final class Turnaround {
    static final int WINDOW = 31;
    /** Before so many replies nothing is known. */
    static final int LEAST = 9;

    /** Less than this is within what timers and threads add. */
    private static final long NOT_WORTH_A_PLAN = 500_000;

    /** A new plan is not for what chance makes of a turnaround that varies. */
    private static final int ONE_IN_OTHERWISE = 8;

    private final CostModel model;
    private final long[] samples = new long[WINDOW];
    private long replies;

    public Turnaround(CostModel model) {
        this.model = model;
    }

    /**
     * The controller answered.
     *
     * @param took from the moment at which the request left to the last byte of its reply
     */
    public void answered(ReadRequest request, Duration took) {
        long beyond = took.minus(model.exchange(request)).toNanos();
        samples[(int) (replies % WINDOW)] = Math.max(0, beyond);
        replies++;
    }

    /** Empty until enough was measured. */
    public Optional<Duration> learned() {
        if (replies < LEAST) {
            return Optional.empty();
        }
        long[] sorted = sorted();
        return Optional.of(Duration.ofNanos(sorted[sorted.length / 2]));
    }

    private long[] sorted() {
        long[] sorted = Arrays.copyOf(samples, (int) Math.min(replies, WINDOW));
        Arrays.sort(sorted);
        return sorted;
    }

    /**
     * What was learned, if it is so far off what a plan was made with that the plan should be made anew: if seven
     * replies in eight were off to the same side, so that a plan does not change to and fro with a controller whose
     * turnaround varies.
     */
    public Optional<Duration> offFrom(Duration planned) {
        if (replies < LEAST) {
            return Optional.empty();
        }
        long[] sorted = sorted();
        long soon = sorted[sorted.length / ONE_IN_OTHERWISE];
        long late = sorted[sorted.length - 1 - sorted.length / ONE_IN_OTHERWISE];
        long was = planned.toNanos();
        return (soon > was && isOff(soon, was)) || (late < was && isOff(late, was)) ? learned() : Optional.empty();
    }

    /** More than a tenth, and more than half a millisecond. */
    private static boolean isOff(long learned, long planned) {
        long off = Math.abs(learned - planned);
        return off > NOT_WORTH_A_PLAN && off > planned / 10;
    }
}
