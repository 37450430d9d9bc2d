package burnerbridge.values;

import java.time.Instant;
import java.util.List;

/**
 * The chosen points as a whole.
 *
 * @param at when it was taken, by the clock of the bridge
 * @param points how many the names choose, of any quality
 * @param waiting how many of them were not read yet though their controller may still answer
 * @param rows how many have a quality that is wanted
 * @param down what is said of controllers that do not answer: the first few
 * @param downCount how many controllers of the site do not answer
 */
public record Summary(
        Instant at,
        int points,
        int good,
        int uncertain,
        int stale,
        int bad,
        int waiting,
        int rows,
        List<String> down,
        int downCount) {

    public Summary {
        down = List.copyOf(down);
    }
}
