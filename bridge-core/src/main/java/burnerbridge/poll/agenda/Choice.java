package burnerbridge.poll.agenda;

import burnerbridge.line.ReadRequest;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What may be asked at a moment, of which the first to be late is chosen; after a silence one of those that must not
 * suffer from it.
 */
final class Choice {
    /** Where even late replies to reads that were answered keep a careful read waiting, they are held back after this. */
    private static final int TIMEOUTS_UNTIL_ALL_ARE_HELD = 10;

    private final long now;
    private final List<Schedule> keptWaiting;
    private final long patience;
    private final Trouble trouble;
    private final List<Schedule> aside = new ArrayList<>();
    private final @Nullable Schedule[] best = new Schedule[Trouble.LAST + 1];
    private @Nullable Long soonest;

    /** @param keptWaiting the careful reads for which others are to be held back */
    Choice(long now, List<Schedule> keptWaiting, Duration replyTimeout, Trouble trouble) {
        this.now = now;
        this.keptWaiting = keptWaiting;
        this.patience = TIMEOUTS_UNTIL_ALL_ARE_HELD * replyTimeout.toNanos();
        this.trouble = trouble;
    }

    /** Whether a read must not be asked now, since a late reply to it could keep a careful one waiting for longer. */
    boolean isHeld(Schedule read) {
        return !keptWaiting.isEmpty() && keptWaiting.stream().anyMatch(careful -> isHeldFor(careful, read));
    }

    private boolean isHeldFor(Schedule careful, Schedule read) {
        boolean suspicious = read.isUnanswered() || careful.rhythm().overdue(now) >= patience;
        return careful != read && suspicious && couldBeInTheWay(read.request(), careful.request());
    }

    /** Late replies are told apart by their function, and by their unit unless they may carry any. */
    private static boolean couldBeInTheWay(ReadRequest request, ReadRequest careful) {
        boolean anyUnit = request.terms().anyReplyUnit() || careful.terms().anyReplyUnit();
        return request.function() == careful.function()
                && (anyUnit || request.unit().equals(careful.unit()));
    }

    /** Those that were held back and stand in no lane. */
    List<Schedule> aside() {
        return aside;
    }

    void offer(Schedule read) {
        int rank = trouble.rank(read);
        best[rank] = first(best[rank], read);
    }

    private static Schedule first(@Nullable Schedule one, Schedule other) {
        return one != null && Schedule.BY_DEADLINE.compare(one, other) <= 0 ? one : other;
    }

    /** Something may be asked at a later tick. */
    void notBefore(long tick) {
        soonest = soonest == null || tick - soonest < 0 ? Long.valueOf(tick) : soonest;
    }

    Optional<Schedule> best() {
        Optional<Schedule> ofRound =
                Arrays.stream(best, 0, Trouble.LAST).flatMap(Stream::ofNullable).findFirst();
        if (ofRound.isEmpty()) {
            trouble.roundIsOver();
        }
        return ofRound.or(() -> Optional.ofNullable(best[Trouble.LAST]));
    }

    Optional<Long> soonest() {
        return Optional.ofNullable(soonest);
    }
}
