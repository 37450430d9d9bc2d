package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** Reads of some of the points of another read. */
final class BlockCut {
    private final ReadBlock block;
    private final List<Piece> pieces;

    private BlockCut(ReadBlock block, List<SitePoint> points) {
        this.block = block;
        this.pieces = Bundle.of(points).stream()
                .map(Piece::of)
                .sorted(Piece.BY_ADDRESS)
                .toList();
    }

    /**
     * The ways to read the other points of a read without one of them: all of them at once, or what lies
     * before it and what lies after.
     */
    static List<List<ReadBlock>> without(ReadBlock block, SitePoint point) {
        BlockCut others = new BlockCut(
                block,
                block.points().stream().filter(other -> !other.equals(point)).toList());
        List<Piece> pieces = others.pieces;
        if (pieces.isEmpty()) {
            return List.of(List.of());
        }
        List<List<ReadBlock>> ways = new ArrayList<>();
        ways.add(List.of(others.part(0, pieces.size())));
        int first = point.definition().wireAddress();
        int cut = (int) pieces.stream().filter(piece -> piece.first() < first).count();
        if (cut > 0 && cut < pieces.size()) {
            ways.add(List.of(others.part(0, cut), others.part(cut, pieces.size())));
        }
        return ways;
    }

    private ReadBlock part(int from, int to) {
        Run run = Run.of(pieces.subList(from, to));
        List<SitePoint> points = run.points();
        return new ReadBlock(block.controller(), requests(run), block.twice(), Duration.ofNanos(run.every()), points);
    }

    private List<ReadRequest> requests(Run run) {
        if (block.isSplit()) {
            return block.requests();
        }
        ReadRequest whole = block.requests().get(0);
        return List.of(new ReadRequest(whole.unit(), whole.table(), run.first(), run.count(), whole.terms()));
    }
}
