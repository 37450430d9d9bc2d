package burnerbridge.values;

import burnerbridge.model.Quality;
import java.util.List;
import java.util.Set;

/**
 * Which rows are wanted.
 *
 * @param points choices by name, {@code CONTROLLER} or {@code CONTROLLER.POINT} with {@code *} and {@code ?};
 *     empty for all
 * @param qualities empty for all
 * @param from how many rows are skipped
 * @param most how many rows at most
 */
public record Query(List<String> points, Set<Quality> qualities, int from, int most) {

    public Query {
        points = List.copyOf(points);
        qualities = Set.copyOf(qualities);
        if (from < 0 || most < 0) {
            throw new IllegalArgumentException("rows are counted from 0 on (was from " + from + ", most " + most + ")");
        }
        // Told here, whichever side the rows then come from.
        new PointFilter(points);
    }

    /** The same with another part of the rows. */
    public Query window(int newFrom, int newMost) {
        return new Query(points, qualities, newFrom, newMost);
    }
}
