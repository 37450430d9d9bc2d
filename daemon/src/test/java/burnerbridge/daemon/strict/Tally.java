package burnerbridge.daemon.strict;

import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.manners.Mixture;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** What came of a stream, or of several. For any thread. */
final class Tally {
    private final List<String> wrong = new ArrayList<>();
    private final Map<Misbehaviour, Integer> played = new EnumMap<>(Misbehaviour.class);
    private int asked;
    private int answered;
    private int earlier;

    synchronized void count(boolean isAnswered) {
        asked++;
        answered += isAnswered ? 1 : 0;
    }

    /** A right value that is shown as older than the question. */
    synchronized void countEarlier() {
        earlier++;
    }

    synchronized void wrong(String what) {
        wrong.add(what);
    }

    synchronized void played(Mixture mixture) {
        mixture.played().forEach((what, count) -> played.merge(what, count, Integer::sum));
    }

    /** Wrong values that were taken for good, in words. */
    synchronized List<String> wrong() {
        return List.copyOf(wrong);
    }

    synchronized Map<Misbehaviour, Integer> played() {
        return Map.copyOf(played);
    }

    synchronized int misbehaved() {
        return played.values().stream().mapToInt(Integer::intValue).sum();
    }

    synchronized int asked() {
        return asked;
    }

    synchronized double shareAnswered() {
        return asked == 0 ? 0 : (double) answered / asked;
    }

    @Override
    public synchronized String toString() {
        return asked + " requests, " + answered + " answered (" + earlier + " as of an earlier request), "
                + misbehaved() + " misbehaviours " + played + ", " + wrong.size() + " wrong values taken for good";
    }
}
