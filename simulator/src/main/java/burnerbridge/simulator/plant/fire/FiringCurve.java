package burnerbridge.simulator.plant.fire;

import java.util.List;

/**
 * Where fuel, air and fan stand at each load, as a commissioning engineer has set it.
 *
 * @param points two or more, their loads rising
 */
public record FiringCurve(List<Point> points) {

    /**
     * @param load in % of full power
     * @param fuel position of what meters the fuel, in degrees
     * @param air position of the damper, in degrees
     * @param fan speed in % of its highest
     */
    public record Point(double load, double fuel, double air, double fan) {}

    public FiringCurve {
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new IllegalArgumentException("a curve has two points or more (had " + points.size() + ")");
        }
        for (int i = 1; i < points.size(); i++) {
            if (!(points.get(i).load() > points.get(i - 1).load())) {
                throw new IllegalArgumentException("the loads of a curve rise ("
                        + points.get(i).load() + " follows " + points.get(i - 1).load() + ")");
            }
        }
    }

    /** On the straight lines between the points; the ends hold beyond them. */
    public Point at(double load) {
        Point below = points.get(0);
        for (Point above : points) {
            if (above.load() >= load) {
                return between(below, above, load);
            }
            below = above;
        }
        return below;
    }

    private static Point between(Point below, Point above, double load) {
        if (load <= below.load()) {
            return below;
        }
        double share = (load - below.load()) / (above.load() - below.load());
        return new Point(
                load,
                below.fuel() + share * (above.fuel() - below.fuel()),
                below.air() + share * (above.air() - below.air()),
                below.fan() + share * (above.fan() - below.fan()));
    }
}
