package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Cuts a read in two. */
final class BlockCut {
    private final ReadBlock block;
    private final List<Piece> pieces;

    private BlockCut(ReadBlock block) {
        this.block = block;
        this.pieces = Bundle.of(block.points()).stream()
                .map(Piece::of)
                .sorted(Piece.BY_ADDRESS)
                .toList();
    }

    /** The two halves of a read that are most alike in length. */
    static Optional<ReadBlock.Halves> halves(ReadBlock block) {
        BlockCut all = new BlockCut(block);
        return IntStream.range(1, all.pieces.size())
                .filter(all::isBetweenAddresses)
                .boxed()
                .min(Comparator.comparingInt(all::longerOf).thenComparingInt(all::bothOf))
                .map(cut -> new ReadBlock.Halves(all.part(0, cut), all.part(cut, all.pieces.size())));
    }

    /** A cut between points of the very same addresses would make one read two of the same. */
    private boolean isBetweenAddresses(int cut) {
        Piece before = pieces.get(cut - 1);
        Piece after = pieces.get(cut);
        return before.first() != after.first() || before.last() != after.last();
    }

    private int longerOf(int cut) {
        return Math.max(lower(cut).count(), upper(cut).count());
    }

    private int bothOf(int cut) {
        return lower(cut).count() + upper(cut).count();
    }

    private Run lower(int cut) {
        return Run.of(pieces.subList(0, cut));
    }

    private Run upper(int cut) {
        return Run.of(pieces.subList(cut, pieces.size()));
    }

    private ReadBlock part(int from, int to) {
        Run run = Run.of(pieces.subList(from, to));
        List<SitePoint> points = run.points();
        return new ReadBlock(block.controller(), requests(run), block.twice(), Duration.ofNanos(run.every()), points);
    }

    private List<ReadRequest> requests(Run run) {
        ReadRequest whole = block.requests().get(0);
        return List.of(new ReadRequest(whole.unit(), whole.table(), run.first(), run.count(), whole.terms()));
    }
}
