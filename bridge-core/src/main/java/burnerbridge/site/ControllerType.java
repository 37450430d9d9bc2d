package burnerbridge.site;

import java.util.List;

/**
 * A kind of controller: what all controllers of one make share.
 *
 * @param rules what its controllers ask of whoever reads them
 * @param options what most types do not say
 */
public record ControllerType(Name name, List<PointDefinition> points, ReadRules rules, TypeOptions options) {
    public ControllerType {
        points = List.copyOf(points);
    }

    /** A type of which nothing more is said. */
    public ControllerType(Name name, List<PointDefinition> points, ReadRules rules) {
        this(name, points, rules, TypeOptions.NONE);
    }

    /** A type that asks for nothing but what the protocol does. */
    public ControllerType(Name name, List<PointDefinition> points) {
        this(name, points, ReadRules.NONE);
    }

    /**
     * The same for a controller whose addresses are so many higher, one of several behind one unit identifier.
     *
     * @throws IllegalArgumentException where a point would leave its table
     */
    public ControllerType shiftedBy(int addresses) {
        return addresses == 0
                ? this
                : new ControllerType(
                        name,
                        points.stream().map(point -> point.shiftedBy(addresses)).toList(),
                        rules.shiftedBy(addresses),
                        options.shiftedBy(addresses));
    }
}
