package burnerbridge.simulator.manners;

import java.time.Duration;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * Misbehaves at random, as its seed decides: the same requests in the same order meet the same. Counts
 * what it played, which any thread may ask.
 */
public final class Mixture implements Manners {

    /**
     * How often a misbehaviour comes, and in which forms.
     *
     * @param weight how often against the others and against behaving well
     * @param least of its argument, if it has one
     * @param most of its argument
     * @param longest toward how many requests in a row, at most
     */
    public record Share(Misbehaviour what, int weight, int least, int most, int longest) {
        public Share {
            if (weight < 1 || longest < 1 || least > most) {
                throw new IllegalArgumentException("a share needs a weight and a length of 1 or more, and a range: "
                        + what.word() + " has " + weight + ", " + longest + ", " + least + " to " + most);
            }
        }

        /** Of one without an argument, toward one request at a time. */
        public static Share of(Misbehaviour what, int weight) {
            return new Share(what, weight, 0, 0, 1);
        }
    }

    private final Random dice;
    private final List<Share> shares;
    private final int weightOfWell;
    private final int weightOfAll;
    private final Duration longestHeld;
    private final Map<Misbehaviour, Integer> played = new EnumMap<>(Misbehaviour.class);
    private int well;
    private Manners now = Manners.WELL;
    private int left;
    private String last = "nothing yet";

    /**
     * @param weightOfWell how often it behaves well
     * @param longestHeld how long a reply may wait for the next request, where it does
     */
    public Mixture(long seed, int weightOfWell, List<Share> shares, Duration longestHeld) {
        this.dice = new Random(seed);
        this.shares = List.copyOf(shares);
        this.weightOfWell = weightOfWell;
        this.weightOfAll =
                weightOfWell + shares.stream().mapToInt(Share::weight).sum();
        this.longestHeld = longestHeld;
    }

    /** How often each was played. */
    public synchronized Map<Misbehaviour, Integer> played() {
        return Map.copyOf(played);
    }

    /** How many requests it answered well, of its own accord. */
    public synchronized int well() {
        return well;
    }

    /** What it did toward the last request, for messages. */
    public synchronized String last() {
        return last;
    }

    @Override
    public synchronized List<Act> toward(Exchange exchange) {
        if (left-- <= 0) {
            choose();
        }
        return now.toward(exchange);
    }

    private void choose() {
        int drawn = dice.nextInt(weightOfAll) - weightOfWell;
        if (drawn < 0) {
            well++;
            begin(Manners.WELL, 1, "well");
            return;
        }
        for (Share share : shares) {
            drawn -= share.weight();
            if (drawn < 0) {
                begin(share);
                return;
            }
        }
    }

    private void begin(Share share) {
        int number = share.least() + dice.nextInt(share.most() - share.least() + 1);
        played.merge(share.what(), 1, Integer::sum);
        if (share.what() == Misbehaviour.ONE_BEHIND) {
            begin(Timing.oneBehind(number, longestHeld), number, share.what().word() + " for " + number);
        } else {
            int requests = 1 + dice.nextInt(share.longest());
            begin(share.what().manners(number, dice), requests, share.what().word() + " " + number);
        }
    }

    private void begin(Manners manners, int requests, String name) {
        now = manners;
        left = requests - 1;
        last = name;
    }
}
