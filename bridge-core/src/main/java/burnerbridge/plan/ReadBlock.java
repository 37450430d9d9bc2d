package burnerbridge.plan;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;

/**
 * One read that is made again and again, and the points that its reply feeds.
 *
 * @param every the shortest interval of its points
 */
public record ReadBlock(ControllerDefinition controller, ReadRequest request, Duration every, List<SitePoint> points) {

    public ReadBlock {
        points = List.copyOf(points);
        for (SitePoint point : points) {
            int from = point.definition().wireAddress();
            int end = from + point.definition().format().width();
            if (from < request.first() || end > request.first() + request.count()) {
                throw new IllegalArgumentException(point.id() + " does not lie within " + request);
            }
        }
    }
}
