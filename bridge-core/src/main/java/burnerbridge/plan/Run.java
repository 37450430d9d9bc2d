package burnerbridge.plan;

import burnerbridge.site.SitePoint;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The pieces of one read, in the order of their addresses.
 *
 * @param every the shortest interval of its pieces, in nanoseconds
 */
record Run(int first, int last, long every, List<Piece> pieces) {
    /** Two runs of a plan never have the same addresses and interval. */
    static final Comparator<Run> BY_ADDRESS =
            Comparator.comparingInt(Run::first).thenComparingInt(Run::last).thenComparingLong(Run::every);

    static Run of(List<Piece> pieces) {
        return new Run(
                pieces.stream().mapToInt(Piece::first).min().orElseThrow(),
                pieces.stream().mapToInt(Piece::last).max().orElseThrow(),
                pieces.stream().mapToLong(Piece::every).min().orElseThrow(),
                pieces.stream().sorted(Piece.BY_ADDRESS).toList());
    }

    List<SitePoint> points() {
        return pieces.stream()
                .flatMap(piece -> piece.bundle().points().stream())
                .sorted(Comparator.comparingInt(SitePoint::ordinal))
                .toList();
    }

    int count() {
        return last - first + 1;
    }

    Run with(List<Piece> more) {
        List<Piece> all = new ArrayList<>(pieces);
        all.addAll(more);
        return of(all);
    }

    boolean holds(int from, int to) {
        return first <= from && to <= last;
    }
}
