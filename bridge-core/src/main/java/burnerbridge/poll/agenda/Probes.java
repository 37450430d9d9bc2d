package burnerbridge.poll.agenda;

import java.util.Comparator;
import java.util.List;

/**
 * By which of its reads a lost controller is asked whether it is back: the smallest that it has answered before. In
 * case that it answers that one no more, or has never answered any, the others have their turns, too.
 */
final class Probes {
    /** One probe in so many is another read, where there is one that was answered before. */
    private static final int OTHERS = 4;

    private static final Comparator<Schedule> BEST_FIRST =
            Comparator.comparing((Schedule read) -> !read.wasEverAnswered()).thenComparing(Schedule::size);

    private int asked;

    /** @param reads all of the controller */
    Schedule next(List<Schedule> reads) {
        // What a read clears must not be lost to a controller that probably does not answer.
        List<Schedule> repeatable =
                reads.stream().filter(read -> !read.block().isOnce()).toList();
        List<Schedule> fit = (repeatable.isEmpty() ? reads : repeatable)
                .stream().sorted(BEST_FIRST).toList();
        return fit.get(turn(fit.get(0).wasEverAnswered()) % fit.size());
    }

    private int turn(boolean oneAnswered) {
        if (!oneAnswered) {
            return asked;
        }
        return asked % OTHERS == OTHERS - 1 ? 1 + asked / OTHERS : 0;
    }

    void asked() {
        asked++;
    }

    /** It is back. */
    void restart() {
        asked = 0;
    }
}
