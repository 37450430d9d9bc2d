package burnerbridge.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * The cheapest reads that take all of some pieces, found by dynamic programming: no other choice of reads
 * costs less. Of those that cost the same it is the one that takes the fewest addresses, and of these the one
 * whose last read begins lowest, then the one before it, and so on.
 *
 * <p>A piece that lies within another needs no read of its own, so it goes along. The rest, in order, have
 * rising first and rising last addresses, and some optimum takes neighbours of them in each read: of two
 * reads, one within the other is of no use, and a piece that fits in both may as well be in the lower. Thus
 * the cheapest way to take the pieces up to one is the cheapest, over all its last reads, of that read and
 * the cheapest way to take what is before it. A last read that is too long or crosses too much stays so when
 * it begins lower, so no more of them are tried than one read can take addresses.
 */
final class Optimum {
    private final Ground ground;
    private final List<List<Piece>> steps;
    /** Whether the gap between a step and the next one may be crossed. */
    private final boolean[] crosses;
    /** The most that a read may take which takes a step and what is up to the next. */
    private final int[] most;

    private final long[] cost;
    private final int[] addresses;
    private final int[] begin;

    private Optimum(List<Piece> pieces, Ground ground) {
        this.ground = ground;
        this.steps = steps(pieces);
        int count = steps.size();
        crosses = new boolean[count];
        most = new int[count];
        cost = new long[count + 1];
        addresses = new int[count + 1];
        begin = new int[count + 1];
    }

    static List<Run> of(List<Piece> pieces, Ground ground) {
        Optimum optimum = new Optimum(pieces, ground);
        optimum.survey();
        for (int step = 0; step < optimum.steps.size(); step++) {
            optimum.solve(step);
        }
        return optimum.runs();
    }

    private static List<List<Piece>> steps(List<Piece> pieces) {
        List<List<Piece>> steps = new ArrayList<>();
        List<Piece> sorted = pieces.stream().sorted(Piece.BY_ADDRESS).toList();
        for (Piece piece : sorted) {
            if (steps.isEmpty() || piece.last() > last(steps.get(steps.size() - 1))) {
                steps.add(new ArrayList<>());
            }
            steps.get(steps.size() - 1).add(piece);
        }
        return steps;
    }

    private static int first(List<Piece> step) {
        return step.get(0).first();
    }

    /** The first piece holds all others. */
    private static int last(List<Piece> step) {
        return step.get(0).last();
    }

    private void survey() {
        for (int i = 0; i + 1 < steps.size(); i++) {
            int next = first(steps.get(i + 1));
            crosses[i] = ground.crosses(last(steps.get(i)) + 1, next - 1);
            most[i] = ground.most(first(steps.get(i)), next - 1);
        }
    }

    /** The cheapest way to take all pieces up to a step, given that for each step before it. */
    private void solve(int step) {
        int last = last(steps.get(step));
        int limit = ground.most(first(steps.get(step)), last);
        cost[step + 1] = Long.MAX_VALUE;
        for (int from = step; from >= 0; from--) {
            limit = from == step ? limit : Math.min(limit, most[from]);
            int count = last - first(steps.get(from)) + 1;
            boolean reaches = from == step || (crosses[from] && count <= limit);
            if (!reaches) {
                return;
            }
            offer(step, from, count);
        }
    }

    private void offer(int step, int from, int count) {
        long price = cost[from] + ground.cost(count);
        int taken = addresses[from] + count;
        if (price < cost[step + 1] || (price == cost[step + 1] && taken <= addresses[step + 1])) {
            cost[step + 1] = price;
            addresses[step + 1] = taken;
            begin[step + 1] = from;
        }
    }

    private List<Run> runs() {
        Run[] runs = new Run[steps.size()];
        int count = 0;
        for (int end = steps.size(); end > 0; end = begin[end]) {
            runs[count++] = Run.of(steps.subList(begin[end], end).stream()
                    .flatMap(List::stream)
                    .toList());
        }
        List<Run> ascending = Arrays.asList(Arrays.copyOf(runs, count));
        Collections.reverse(ascending);
        return ascending;
    }
}
