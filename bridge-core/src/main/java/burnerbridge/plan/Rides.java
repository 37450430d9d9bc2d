package burnerbridge.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Lets slow pieces ride with the reads of faster ones where that lowers what all of them cost a second.
 *
 * <p>The intervals are taken from the shortest to the longest. Of each, what lies within a read that is
 * planned already goes along with it, and the rest has the exact optimum. Each read of that optimum is then
 * held against every faster read in reach: the pieces at one of its ends, or all of it, move to the one where
 * most is saved, if anything is. After a round in which pieces moved, the optimum is made anew for those that
 * are left; {@value #ROUNDS} rounds are made at most.
 *
 * <p>It is a heuristic, but never dearer than the optima of all intervals side by side: a ride within a read
 * costs nothing, the optimum of fewer pieces costs no more, and each move saves something.
 */
final class Rides {
    private static final int ROUNDS = 8;

    /** In nanoseconds of a second; less than this is what rounding makes. */
    private static final double WORTH_A_MOVE = 1e-3;

    private final Ground ground;
    private final NavigableSet<Run> planned = new TreeSet<>(Run.BY_ADDRESS);
    private boolean moved;

    private Rides(Ground ground) {
        this.ground = ground;
    }

    /** The reads of all pieces of one table of one controller, in the order of their addresses. */
    static List<Run> of(List<Piece> pieces, Ground ground) {
        Rides rides = new Rides(ground);
        Map<Long, List<Piece>> byInterval =
                pieces.stream().collect(Collectors.groupingBy(Piece::every, TreeMap::new, Collectors.toList()));
        byInterval.values().forEach(rides::add);
        return List.copyOf(rides.planned);
    }

    private void add(List<Piece> pieces) {
        List<Run> runs = Optimum.of(withoutRiders(pieces), ground);
        for (int round = 0; round < ROUNDS; round++) {
            moved = false;
            List<Piece> left = new ArrayList<>();
            runs.forEach(run -> left.addAll(afterMove(run)));
            if (!moved) {
                break;
            }
            runs = Optimum.of(withoutRiders(left), ground);
        }
        planned.addAll(runs);
    }

    /** Those that lie within no read that is planned already; the others join theirs. */
    private List<Piece> withoutRiders(List<Piece> pieces) {
        List<Piece> without = new ArrayList<>();
        for (Piece piece : pieces) {
            Optional<Run> holder = within(reach(piece.first(), piece.last()), piece.first(), piece.last());
            holder.ifPresent(run -> replace(run, run.with(List.of(piece))));
            if (holder.isEmpty()) {
                without.add(piece);
            }
        }
        return without;
    }

    private static Optional<Run> within(List<Run> runs, int first, int last) {
        return runs.stream().filter(run -> run.holds(first, last)).findFirst();
    }

    private void replace(Run before, Run after) {
        planned.remove(before);
        planned.add(after);
    }

    /** The reads that could take addresses up to some others and stay reads. */
    private List<Run> reach(int first, int last) {
        int longest = ground.longest();
        Run from = new Run(first - 2 * longest, 0, 0, List.of());
        Run to = new Run(last + longest, 0, 0, List.of());
        return planned.subSet(from, to).stream()
                .filter(run -> run.last() > first - longest)
                .toList();
    }

    /** Some pieces of a slow read, and the faster one that they could move to. */
    private record Move(Run fast, List<Piece> moving, List<Piece> staying, double saves) {}

    /** The pieces of a read that stay when the best move is made. */
    private List<Piece> afterMove(Run slow) {
        Optional<Move> best = reach(slow.first(), slow.last()).stream()
                .flatMap(fast -> bestMove(slow, fast).stream())
                .max(Comparator.comparingDouble(Move::saves));
        best.ifPresent(this::make);
        return best.map(Move::staying).orElse(slow.pieces());
    }

    private Optional<Move> bestMove(Run slow, Run fast) {
        Cuts cuts = new Cuts(slow);
        Optional<Move> best = Optional.empty();
        for (int count = 1; count <= slow.pieces().size(); count++) {
            Optional<Move> lower = move(fast, slow, cuts, 0, count);
            best = better(best, lower);
            if (lower.isEmpty()) {
                break;
            }
        }
        for (int from = slow.pieces().size() - 1; from > 0; from--) {
            Optional<Move> upper = move(fast, slow, cuts, from, slow.pieces().size());
            best = better(best, upper);
            if (upper.isEmpty()) {
                break;
            }
        }
        return best.filter(move -> move.saves() > WORTH_A_MOVE);
    }

    private static Optional<Move> better(Optional<Move> one, Optional<Move> other) {
        boolean otherIs = other.isPresent()
                && (one.isEmpty() || other.get().saves() > one.get().saves());
        return otherIs ? other : one;
    }

    /** Empty where the fast read would become too long or cross too much; with more pieces it would too. */
    private Optional<Move> move(Run fast, Run slow, Cuts cuts, int from, int to) {
        int first = Math.min(fast.first(), cuts.first(from, to));
        int last = Math.max(fast.last(), cuts.last(from, to));
        if (!ground.allows(first, last)) {
            return Optional.empty();
        }
        int left = cuts.countWithout(from, to);
        double saves = ground.rate(slow.count(), slow.every())
                - (left == 0 ? 0 : ground.rate(left, slow.every()))
                + ground.rate(fast.count(), fast.every())
                - ground.rate(last - first + 1, fast.every());
        return Optional.of(new Move(fast, cuts.pieces(from, to), cuts.without(from, to), saves));
    }

    private void make(Move move) {
        moved = true;
        planned.remove(move.fast());
        Run joined = move.fast().with(move.moving());
        for (Run other : reach(joined.first(), joined.last())) {
            if (other.every() >= joined.every() && joined.holds(other.first(), other.last())) {
                planned.remove(other);
                joined = joined.with(other.pieces());
            }
        }
        planned.add(joined);
    }

    /** The pieces of a run from one to another, and what is left of it at the other end. */
    private static final class Cuts {
        private final List<Piece> pieces;
        private final int[] lastUpTo;
        private final int[] lastFrom;

        Cuts(Run run) {
            pieces = run.pieces();
            lastUpTo = new int[pieces.size()];
            lastFrom = new int[pieces.size()];
            for (int i = 0; i < pieces.size(); i++) {
                lastUpTo[i] =
                        Math.max(i == 0 ? 0 : lastUpTo[i - 1], pieces.get(i).last());
            }
            for (int i = pieces.size() - 1; i >= 0; i--) {
                lastFrom[i] = Math.max(
                        i == pieces.size() - 1 ? 0 : lastFrom[i + 1],
                        pieces.get(i).last());
            }
        }

        List<Piece> pieces(int from, int to) {
            return pieces.subList(from, to);
        }

        List<Piece> without(int from, int to) {
            return from == 0 ? pieces.subList(to, pieces.size()) : pieces.subList(0, from);
        }

        int first(int from, int to) {
            return pieces.get(from).first();
        }

        int last(int from, int to) {
            return from == 0 ? lastUpTo[to - 1] : lastFrom[from];
        }

        int countWithout(int from, int to) {
            if (from > 0) {
                return lastUpTo[from - 1] - pieces.get(0).first() + 1;
            }
            return to == pieces.size() ? 0 : lastFrom[to] - pieces.get(to).first() + 1;
        }
    }
}
