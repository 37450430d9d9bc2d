package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import java.util.Comparator;

/**
 * What is never split over two reads.
 *
 * @param first its first address in the table by which it is read
 * @param last its last one, included
 * @param every its interval, in nanoseconds
 */
record Piece(int first, int last, long every, Bundle bundle) {
    /** By address; of those that begin alike the longest first, so that what lies within another follows it. */
    static final Comparator<Piece> BY_ADDRESS = Comparator.comparingInt(Piece::first)
            .thenComparing(Comparator.comparingInt(Piece::last).reversed())
            .thenComparing(piece -> piece.bundle().points().get(0).ordinal());

    static Piece of(Bundle bundle) {
        AddressRange range = bundle.ranges().get(0);
        return new Piece(range.first(), range.last(), bundle.every().toNanos(), bundle);
    }
}
