package burnerbridge.bacnet.points;

import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import java.math.BigDecimal;

/** How much a number must change for its subscribers to be told. */
final class TellingChange {
    private TellingChange() {}

    /**
     * The row's {@code change}, with room for rounding: a change of exactly one step may come out a little less
     * than the step between two floating-point numbers (20.3 and 20.2 differ by less than 0.1), and would not
     * be told. A quarter of a step less tells it and tells nothing else, as values lie whole steps apart.
     */
    static double of(PointDefinition definition) {
        BigDecimal step = definition.scaling().step();
        boolean stepped = !(definition.format() instanceof PointFormat.Floating);
        boolean asStated = !stepped || definition.change().compareTo(step) < 0;
        BigDecimal room = asStated ? BigDecimal.ZERO : step.multiply(new BigDecimal("0.25"));
        return definition.change().subtract(room).floatValue();
    }
}
