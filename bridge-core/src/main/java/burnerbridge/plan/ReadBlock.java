package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Optional;

/**
 * One read that is made again and again, and the points that its reply feeds.
 *
 * @param requests one, or two for values whose words are apart, and at the same two addresses: the more
 *     significant word first
 * @param twice whether the read is repeated until two replies agree
 * @param every the shortest interval of its points
 */
public record ReadBlock(
        ControllerDefinition controller,
        List<ReadRequest> requests,
        boolean twice,
        Duration every,
        List<SitePoint> points) {

    public ReadBlock {
        requests = List.copyOf(requests);
        points = List.copyOf(points);
        if (requests.isEmpty() || requests.size() > 2) {
            throw new IllegalArgumentException("a read is one request or two (was " + requests + ")");
        }
        if (requests.get(0).terms().once() && (twice || requests.size() == 2)) {
            throw new IllegalArgumentException("what a read clears is read once (was " + requests + ")");
        }
        for (SitePoint point : points) {
            int from = point.definition().wireAddress() - requests.get(0).first();
            int width = requests.size() == 2 ? 1 : point.definition().format().width();
            if (from < 0 || from + width > requests.get(0).count()) {
                throw new IllegalArgumentException(point.id() + " does not lie within " + requests.get(0));
            }
        }
    }

    /** The point of a name, if the read feeds it. */
    public Optional<SitePoint> point(Name name) {
        return points.stream()
                .filter(point -> point.definition().name().equals(name))
                .findFirst();
    }

    /** Whether it clears what it reads, so that it is never repeated. */
    public boolean isOnce() {
        return requests.get(0).terms().once();
    }

    /** The function code that reads it: 1 to 4. */
    public int function() {
        return requests.get(0).function();
    }

    /** Whether its points have their words apart. */
    public boolean isSplit() {
        return requests.size() == 2;
    }

    /** How many transactions it takes if nothing changes between them. */
    public int transactions() {
        return isSplit() ? 3 : twice ? 2 : 1;
    }

    /**
     * Two reads in its place, each of about half of its points; none where it has nothing that can be read apart:
     * a point, a group, and points that share addresses are never divided, nor is what a read clears.
     */
    public List<ReadBlock> halves() {
        return isDivisible() ? new BlockParts(this).halves() : List.of();
    }

    /** Reads in its place that leave some of its points out, with what cannot be read apart from them. */
    public List<ReadBlock> around(Collection<SitePoint> gone) {
        return isDivisible() ? new BlockParts(this).around(gone) : List.of();
    }

    private boolean isDivisible() {
        return !isOnce() && !isSplit();
    }

    /** Where the registers of a point begin in what the whole read brings. */
    public int offsetOf(SitePoint point) {
        return point.definition().wireAddress() - requests.get(0).first();
    }
}
