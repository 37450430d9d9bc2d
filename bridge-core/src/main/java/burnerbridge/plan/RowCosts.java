package burnerbridge.plan;

import burnerbridge.plan.Prediction.Cost;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What each row of one read costs: how much less its bus time a second would be without it. */
final class RowCosts {
    private final Cost cost;
    private final LinePlan plan;
    private final List<Piece> pieces;
    /** What the pieces before each take, and those from each on. */
    private final List<Optional<Span>> before = new ArrayList<>();

    private final List<Optional<Span>> from = new ArrayList<>();

    /** Addresses that one read could take, and how often. */
    private record Span(int first, int last, long every) {
        static Span of(Piece piece) {
            return new Span(piece.first(), piece.last(), piece.every());
        }

        static Optional<Span> over(Stream<Optional<Span>> parts) {
            return parts.flatMap(Optional::stream).reduce(Span::with);
        }

        Span with(Span other) {
            return new Span(Math.min(first, other.first), Math.max(last, other.last), Math.min(every, other.every));
        }
    }

    private RowCosts(Cost cost, LinePlan plan) {
        this.cost = cost;
        this.plan = plan;
        this.pieces = Bundle.of(cost.block().points()).stream()
                .map(Piece::of)
                .sorted(Piece.BY_ADDRESS)
                .toList();
        before.add(Optional.empty());
        from.add(Optional.empty());
        for (int i = 0; i < pieces.size(); i++) {
            before.add(Span.over(Stream.of(before.get(i), span(i))));
            from.add(0, Span.over(Stream.of(span(pieces.size() - 1 - i), from.get(0))));
        }
    }

    private Optional<Span> span(int piece) {
        return Optional.of(Span.of(pieces.get(piece)));
    }

    static Stream<Prediction.RowCost> of(Cost cost, LinePlan plan) {
        return new RowCosts(cost, plan).all();
    }

    private Stream<Prediction.RowCost> all() {
        List<Prediction.RowCost> rows = new ArrayList<>();
        for (int i = 0; i < pieces.size(); i++) {
            for (SitePoint point : pieces.get(i).bundle().points()) {
                rows.add(new Prediction.RowCost(point, cost.busShare() - without(i, point)));
            }
        }
        return rows.stream();
    }

    /** The rest in one read; or, where nothing of its piece is left, in two, if they cost less with their pauses. */
    private double without(int piece, SitePoint point) {
        Optional<Span> lower = before.get(piece);
        Optional<Span> upper = from.get(piece + 1);
        Optional<Span> rest = rest(pieces.get(piece), point);
        Optional<Span> one = Span.over(Stream.of(lower, rest, upper));
        boolean canBeTwo = rest.isEmpty() && lower.isPresent() && upper.isPresent();
        boolean areTwo = canBeTwo && taken(lower) + taken(upper) < taken(one);
        return areTwo ? bus(lower) + bus(upper) : bus(one);
    }

    private static Optional<Span> rest(Piece piece, SitePoint point) {
        List<SitePoint> others = piece.bundle().points().stream()
                .filter(other -> !other.equals(point))
                .toList();
        return others.isEmpty() ? Optional.empty() : Optional.of(Span.of(Piece.of(new Bundle(others))));
    }

    private double bus(Optional<Span> span) {
        return span.map(s -> (double) bus(s) / s.every()).orElse(0.0);
    }

    private double taken(Optional<Span> span) {
        long pause = cost.taken() - cost.bus();
        return span.map(s -> (double) (bus(s) + pause) / s.every()).orElse(0.0);
    }

    private long bus(Span span) {
        ReadBlock block = cost.block();
        RegisterTable table = block.requests().get(0).table();
        long turnaround = plan.turnarounds().of(block.controller()).toNanos();
        return block.transactions() * plan.model().of(table, span.last() - span.first() + 1, turnaround);
    }
}
